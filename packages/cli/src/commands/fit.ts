import { additiveTerm } from '@keelrow/breeding/pedigree';
import { type AdditiveTerm, type FitResult, fitTable, type Model } from '@keelrow/quant';
import { Command } from 'commander';
import { kinshipOfFile, readFounderKinship, readPedigreeFile } from '../read-pedigree.ts';
import { readRows } from '../read-rows.ts';
import { digits, InputError, printTable } from '../telling.ts';

interface Options {
  readonly response: string;
  readonly fixed?: string;
  readonly random?: string;
  readonly numeric?: string;
  readonly weights?: string;
  readonly hold?: string;
  readonly pedigree?: string;
  readonly additive?: string;
  readonly founderKinship?: string;
  readonly json?: boolean;
}

export const fitCommand = (): Command =>
  new Command('fit')
    .description('fit a linear mixed model by REML to any table')
    .argument('<file>', 'CSV or XLSX file')
    .requiredOption('--response <column>', 'the column to explain')
    .option('--fixed <terms>', 'fixed terms: columns and interactions a*b, separated by commas')
    .option('--random <terms>', 'random terms, likewise')
    .option('--numeric <columns>', 'columns used as numbers; others are classes')
    .option('--weights <column>', 'column of weights')
    .option('--hold <variances>', 'variances kept at given values, such as genet=20,residual=40')
    .option('--pedigree <file>', 'pedigree: genet, seed_parent, pollen_parent, clone_of, group')
    .option('--additive <column>', 'the column that names the genet of the pedigree in each row')
    .option('--founder-kinship <kinship>', 'kinship of founders within groups, as for keelrow pedigree')
    .action(async (file: string, options: Options) => {
      const { columns, rowNumbers } = await readColumns(file);
      const model: Model = {
        response: options.response,
        fixed: list(options.fixed),
        random: list(options.random),
        numeric: list(options.numeric),
        ...(options.weights ? { weights: options.weights } : {}),
        ...(options.hold ? { held: heldOf(options.hold) } : {}),
        ...(await additiveOf(options)),
      };
      const result = fitTable({ columns, rowNumbers }, model, { observedInformation: true });
      if (options.json) console.log(JSON.stringify(result, null, 2));
      else print(result);
    });

/** The additive term, where a pedigree and the column of its genets are given. */
async function additiveOf(options: Options): Promise<{ additive?: AdditiveTerm }> {
  const { pedigree, additive, founderKinship } = options;
  if (pedigree === undefined && additive === undefined && founderKinship === undefined) return {};
  if (pedigree === undefined || additive === undefined)
    throw new InputError(
      `--${pedigree === undefined ? 'pedigree' : 'additive'} is missing`,
      'an additive term takes --pedigree FILE and --additive COLUMN together',
    );
  const founders = founderKinship === undefined ? undefined : readFounderKinship(founderKinship);
  const kinship = kinshipOfFile(await readPedigreeFile(pedigree, founders), pedigree, founders);
  return { additive: additiveTerm(kinship, additive, pedigree) };
}

const list = (text: string | undefined): string[] =>
  (text ?? '')
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');

function heldOf(text: string): Record<string, number> {
  return Object.fromEntries(
    list(text).map((part) => {
      const at = part.lastIndexOf('=');
      const value = Number(part.slice(at + 1));
      if (at <= 0 || part.slice(at + 1).trim() === '' || !Number.isFinite(value))
        throw new InputError(`“${part}” after --hold is not of the form term=number`);
      return [part.slice(0, at).trim(), value];
    }),
  );
}

async function readColumns(file: string): Promise<{ columns: Map<string, string[]>; rowNumbers: number[] }> {
  const { headers, rows } = await readRows(file);
  const column = (at: number) => rows.map(({ cells }) => cells[at] ?? '');
  return {
    columns: new Map(headers.map((header, at) => [header, column(at)])),
    rowNumbers: rows.map(({ row }) => row),
  };
}

function print(result: FitResult): void {
  console.log(
    `${result.records} records${result.omitted > 0 ? ` (${result.omitted} left out for missing cells)` : ''}, ${result.method}, ${result.converged ? `settled after ${result.iterations} rounds` : 'did not settle'}`,
  );
  console.log(`log-likelihood ${result.remlLogLikelihood.toFixed(4)}\n`);
  printTable(
    ['fixed', 'level', 'estimate', 'se'],
    result.fixed.map(({ term, level, estimate, se }) => [term, level ?? '', digits(estimate, 6), digits(se)]),
  );
  console.log();
  printTable(
    ['variance', 'estimate', 'se'],
    result.variances.map(({ term, estimate, se }) => [
      term,
      digits(estimate, 6),
      se === null ? '' : digits(se),
    ]),
  );
  console.log();
  printTable(
    ['effect', 'level', 'estimate', 'se', 'reliability'],
    result.effects
      .slice(0, 60)
      .map(({ term, level, estimate, se, reliability }) => [
        term,
        level,
        digits(estimate, 5),
        digits(se),
        reliability === null ? '' : reliability.toFixed(3),
      ]),
  );
  if (result.effects.length > 60)
    console.log(`… and ${result.effects.length - 60} more effects; --json lists them all`);
  for (const warning of result.warnings) console.error(`heed: ${warning}`);
}

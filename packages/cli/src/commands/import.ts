import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { isKindName, kindNames } from '@keelrow/breeding/facts';
import {
  type ColumnUse,
  type ImportOutcome,
  type ImportPart,
  openImport,
  openWhole,
  type PlanWishes,
  type Programme,
  takeIn,
} from '@keelrow/records';
import { Command, Option } from 'commander';
import { dataOption, openOrBegin, withProgramme } from '../programme-folder.ts';
import { countsInWords, InputError } from '../telling.ts';

interface Options {
  readonly data: string;
  readonly begin?: boolean;
  readonly dryRun?: boolean;
  readonly sheet?: string;
  readonly map?: readonly string[];
  readonly set?: readonly string[];
  readonly make?: readonly string[];
  readonly dateOrder?: 'ymd' | 'dmy' | 'mdy';
  readonly decimal?: 'point' | 'comma';
  readonly yearDay?: string;
  readonly change?: boolean;
  readonly again?: boolean;
  readonly json?: boolean;
}

export const importCommand = (): Command =>
  new Command('import')
    .description('take files in: all of them, or nothing')
    .argument('<kind>', 'kind of record (see keelrow columns), or “all” for a whole programme')
    .argument('<files...>', 'CSV or XLSX files; with “all” a workbook or a folder of files named by kind')
    .addOption(dataOption())
    .option('--begin', 'begin an empty programme where there is none')
    .option('--dry-run', 'say what would be stored and what is wrong, and store nothing')
    .option('--sheet <name>', 'sheet of a workbook')
    .option(
      '--map <header=field...>',
      'which field a column holds; “trait:CODE” for values of a trait, “year” for years',
    )
    .option('--set <field=value...>', 'a value for all rows')
    .option('--make <kinds...>', 'make records that the file names and the programme lacks, of these kinds')
    .addOption(new Option('--date-order <order>', 'order of dates').choices(['ymd', 'dmy', 'mdy']))
    .addOption(new Option('--decimal <mark>', 'decimal mark').choices(['point', 'comma']))
    .option('--year-day <MM-DD>', 'day at which notes are dated where the file holds years alone')
    .option('--change', 'change records that are there with other values')
    .option('--again', 'take a file in that was taken in before')
    .action(async (kind: string, files: string[], options: Options) => {
      checkBeforehand(kind, files, options);
      const outcome = await withProgramme(
        options.data,
        async (programme) => {
          const parts = await partsOf(programme, kind, files, options);
          return takeIn(programme, parts, {
            by: { person: null, device: null, via: 'import' },
            store: options.dryRun !== true,
            onProgress: progressOn(process.stderr),
          });
        },
        options.begin ? openOrBegin : undefined,
      );
      tell(outcome, options);
    });

/** What is wrong with the arguments themselves is said before any programme is opened or begun. */
function checkBeforehand(kind: string, files: readonly string[], { begin, dryRun, make }: Options): void {
  for (const file of files)
    if (!existsSync(file)) throw new InputError(`there is no file ${file}`, 'check its name and folder');
  if (kind !== 'all' && !isKindName(kind))
    throw new InputError(`“${kind}” is no kind of record`, `the kinds are all, ${kindNames.join(', ')}`);
  for (const made of make ?? [])
    if (!isKindName(made)) throw new InputError(`“${made}” after --make is no kind of record`);
  if (begin && dryRun)
    throw new InputError('--begin makes a programme and --dry-run stores nothing', 'give one of the two');
}

async function partsOf(
  programme: Programme,
  kind: string,
  files: readonly string[],
  options: Options,
): Promise<ImportPart[]> {
  const wishes = {
    ...(options.dateOrder ? { dateOrder: options.dateOrder } : {}),
    ...(options.decimal ? { decimal: options.decimal === 'point' ? ('.' as const) : (',' as const) } : {}),
    ...(options.yearDay ? { yearDay: options.yearDay } : {}),
    ...(options.change ? { ifThere: 'change' as const } : {}),
    ...(options.again ? { again: true } : {}),
  };
  if (!isKindName(kind)) return openWhole(programme, files.flatMap(filesIn), wishes);
  const plan: PlanWishes = {
    ...wishes,
    kind,
    ...(options.sheet ? { sheet: options.sheet } : {}),
    ...(options.make ? { make: options.make.filter(isKindName) } : {}),
    ...(options.set
      ? { constants: Object.fromEntries(options.set.map((text) => pairOf(text, '--set'))) }
      : {}),
  };
  const parts: ImportPart[] = [];
  for (const file of files) {
    const part = await openImport(programme, file, plan);
    parts.push({ ...part, plan: { ...part.plan, columns: mapped(part, options.map ?? []) } });
  }
  return parts;
}

function filesIn(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .filter((name) => isKindName(name.replace(/\.(csv|xlsx)$/, '')))
    .map((name) => join(path, name));
}

function pairOf(text: string, option: string): [string, string] {
  const at = text.lastIndexOf('=');
  if (at <= 0) throw new InputError(`“${text}” after ${option} is not of the form name=value`);
  return [text.slice(0, at), text.slice(at + 1)];
}

function mapped({ table, plan }: ImportPart, map: readonly string[]): ImportPart['plan']['columns'] {
  const columns = [...plan.columns];
  for (const text of map) {
    const [header, use] = pairOf(text, '--map');
    const index = table.headers.indexOf(header);
    if (index < 0)
      throw new InputError(
        `${table.name} has no column “${header}”`,
        `its columns are ${table.headers.join(', ')}`,
      );
    columns[index] = useOf(use, plan.columns[index] ?? null);
  }
  return columns;
}

function useOf(text: string, proposed: ColumnUse | null): ColumnUse | null {
  if (text === '') return null;
  if (text === 'year') return { year: true };
  if (!text.startsWith('trait:')) return { field: text };
  // Unit and sort that the column shows go with the trait, whatever it is to be called.
  return { ...(proposed && 'trait' in proposed ? proposed : {}), trait: text.slice('trait:'.length) };
}

function progressOn(stream: NodeJS.WriteStream): (share: number, step: string) => void {
  if (!stream.isTTY) return () => undefined;
  return (share, step) => {
    const filled = Math.round(share * 30);
    stream.write(
      `\r${'█'.repeat(filled)}${'░'.repeat(30 - filled)} ${Math.round(share * 100)}% ${step}   ${share >= 1 ? '\n' : ''}`,
    );
  };
}

const problemsShown = 50;

function tell(outcome: ImportOutcome, options: Options): void {
  const failed = outcome.problemCount > 0 || outcome.questions.length > 0;
  if (failed) process.exitCode = 2;
  if (options.json) {
    console.log(
      JSON.stringify(
        { ...outcome, dryRun: options.dryRun === true, done: !failed && options.dryRun !== true },
        null,
        2,
      ),
    );
    return;
  }
  for (const finding of outcome.findings) console.error(`noticed: ${finding}`);
  for (const { file, row, column, problem, remedy } of outcome.problems.slice(0, problemsShown)) {
    const place = [file, row === null ? '' : `row ${row}`, column ? `column ${column}` : '']
      .filter(Boolean)
      .join(', ');
    console.error(`${place ? `${place}: ` : ''}${problem}${remedy ? `; ${remedy}` : ''}`);
  }
  if (outcome.problemCount > problemsShown)
    console.error(`… and ${outcome.problemCount - problemsShown} more`);
  for (const { words, answers, ask } of outcome.questions) {
    console.error(
      `${words}\n${answers.map(({ value, words: answer }) => `  ${flagOf(ask, value)}  ${answer}`).join('\n')}`,
    );
  }
  for (const { kind, count, codes, canMake } of outcome.missing) {
    console.error(
      `${countsInWords({ [kind]: count })} ${count === 1 ? 'is' : 'are'} not in the programme (${codes.slice(0, 5).join(', ')}${count > 5 ? ', …' : ''})${canMake ? `; --make ${kind} makes ${count === 1 ? 'it' : 'them'}` : ''}`,
    );
  }
  const counted = countsInWords(outcome.stored) || 'nothing new';
  const rest = [
    outcome.changed > 0 ? `${outcome.changed} changed` : '',
    outcome.alreadyThere > 0 ? `${outcome.alreadyThere} there already` : '',
  ]
    .filter(Boolean)
    .join(', ');
  const shown = rest ? `${counted} (${rest})` : counted;
  if (failed)
    console.error(
      `Nothing was stored: ${number(outcome.problemCount, 'problem')}, ${number(outcome.questions.length, 'question')}.`,
    );
  else console.log(options.dryRun ? `Would store ${shown}.` : `Stored ${shown}.`);
}

const number = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

const flagOf = (ask: string, value: string): string =>
  ask === 'date order'
    ? `--date-order ${value}`
    : ask === 'decimal'
      ? `--decimal ${value === '.' ? 'point' : 'comma'}`
      : `--year-day ${value}`;

import type { Kinship, PedigreeEntry } from '@keelrow/breeding/pedigree';
import { Command } from 'commander';
import { kinshipOfFile, readFounderKinship, readPedigreeFile } from '../read-pedigree.ts';
import { columnPlaces, readRows } from '../read-rows.ts';
import { digits, InputError, printTable } from '../telling.ts';

interface Options {
  readonly pairs?: string;
  readonly founderKinship?: string;
  readonly json?: boolean;
}

interface Result {
  readonly genets: readonly { genet: string; inbreeding: number }[];
  readonly pairs: readonly { a: string; b: string; coancestry: number; relationship: number }[];
}

export const pedigreeCommand = (): Command =>
  new Command('pedigree')
    .description('inbreeding of every genet of a pedigree, and the kinship of pairs')
    .argument(
      '<file>',
      'CSV or XLSX file with the columns genet, seed_parent, pollen_parent, clone_of, group',
    )
    .option('--pairs <file>', 'file with the columns a, b: pairs of genets whose kinship is wanted')
    .option(
      '--founder-kinship <kinship>',
      'twice the coancestry of founders of one group: 0.5, or east=1.5,west=0.3,east*west=0.2',
    )
    .action(async (file: string, options: Options) => {
      const founders =
        options.founderKinship === undefined ? undefined : readFounderKinship(options.founderKinship);
      const entries = await readPedigreeFile(file, founders);
      const kinship = kinshipOfFile(entries, file, founders);
      const result: Result = {
        genets: kinship.genets.map((genet, i) => ({ genet, inbreeding: kinship.inbreeding[i]! })),
        pairs: options.pairs === undefined ? [] : await pairsOf(options.pairs, kinship, file),
      };
      if (options.json) console.log(JSON.stringify(result, null, 2));
      else print(result, entries);
    });

const PAIR = ['a', 'b'];

async function pairsOf(file: string, kinship: Kinship, pedigree: string): Promise<Result['pairs']> {
  const { name, headers, rows, repeatedHeaders } = await readRows(file, PAIR);
  const place = columnPlaces(name, headers, { needed: PAIR, allowed: [] });
  // A row “a,b” is a pair where there are genets of these names.
  const pairs = [...rows];
  if (headers.every((header) => kinship.indexOf(header) !== undefined))
    pairs.push(...repeatedHeaders.map((row) => ({ row, cells: headers })));
  pairs.sort((left, right) => left.row - right.row);
  return pairs.map(({ row, cells }) => {
    const named = (column: string): string => {
      const genet = cells[place.get(column)!] ?? '';
      if (kinship.indexOf(genet) === undefined)
        throw new InputError(
          `${name}, row ${row}, column ${column}: “${genet}” is not among the genets of ${pedigree}`,
          'add it there or mend the name',
        );
      return genet;
    };
    const a = named('a');
    const b = named('b');
    const relationship = kinship.relationship(a, b);
    return { a, b, coancestry: relationship / 2, relationship };
  });
}

const MOST_PRINTED = 60;

function print({ genets, pairs }: Result, entries: readonly PedigreeEntry[]): void {
  const founders = entries.filter(
    ({ seedParents, pollenParents, cloneOf }) =>
      cloneOf === null && seedParents.length === 0 && pollenParents.length === 0,
  ).length;
  const inbred = genets.filter(({ inbreeding }) => inbreeding > 0);
  const mean = genets.reduce((sum, { inbreeding }) => sum + inbreeding, 0) / genets.length;
  console.log(
    `${genets.length} genets, ${founders} of them founders, ${inbred.length} inbred; mean inbreeding ${digits(mean)}`,
  );
  if (inbred.length > 0) {
    console.log();
    printTable(
      ['inbred', 'inbreeding'],
      inbred.slice(0, MOST_PRINTED).map(({ genet, inbreeding }) => [genet, digits(inbreeding)]),
    );
    if (inbred.length > MOST_PRINTED)
      console.log(`… and ${inbred.length - MOST_PRINTED} more; --json lists every genet`);
  }
  if (pairs.length > 0) {
    console.log();
    printTable(
      ['a', 'b', 'coancestry', 'relationship'],
      pairs.map(({ a, b, coancestry, relationship }) => [a, b, digits(coancestry), digits(relationship)]),
    );
  }
}

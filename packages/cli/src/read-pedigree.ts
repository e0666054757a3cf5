import { type PossibleParent, readParents } from '@keelrow/breeding/facts';
import {
  type FounderKinship,
  type Kinship,
  kinshipOf,
  type PedigreeEntry,
  PedigreeError,
  withUnlistedParents,
} from '@keelrow/breeding/pedigree';
import { pedigreeProgress } from './pedigree-progress.ts';
import { columnPlaces, readRows } from './read-rows.ts';
import { InputError } from './telling.ts';

const COLUMNS = { needed: ['genet', 'seed_parent', 'pollen_parent'], allowed: ['clone_of', 'group'] };
/** Faults that are told at once; the rest is counted. */
const MOST_TOLD = 20;

/**
 * Reads a pedigree file. Parents and sources that have no row of their own are taken as founders, which is said on standard
 * error.
 * @throws InputError naming file, row and column
 */
export async function readPedigreeFile(
  file: string,
  founders?: FounderKinship,
): Promise<readonly PedigreeEntry[]> {
  const { name, headers, rows } = await readRows(file, COLUMNS.needed);
  const place = columnPlaces(name, headers, COLUMNS);
  const faults: string[] = [];
  const entries = rows.map(({ row, cells }): PedigreeEntry => {
    const cell = (column: string) => cells[place.get(column) ?? -1] ?? '';
    const fault = (column: string, problem: string) =>
      faults.push(`${name}, row ${row}, column ${column}: ${problem}`);
    const parents = (column: string, side: 'seed' | 'pollen'): readonly PossibleParent[] => {
      const read = readParents(cell(column), side);
      if ('problem' in read) fault(column, read.problem);
      return 'problem' in read ? [] : read;
    };
    const genet = cell('genet');
    if (genet === '' || genet === 'self') fault('genet', genet === '' ? 'it is empty' : '“self” is no name');
    const seedParents = parents('seed_parent', 'seed');
    const pollenParents = parents('pollen_parent', 'pollen');
    if (cell('seed_parent') === '' && pollenParents.some((parent) => parent.genet === 'self'))
      fault('pollen_parent', '“self” needs a seed parent');
    return {
      genet,
      seedParents,
      pollenParents,
      cloneOf: cell('clone_of') || null,
      group: cell('group') || null,
      row,
    };
  });
  const known = new Set(entries.map(({ genet }) => genet));
  for (const { seedParents, pollenParents, row } of entries)
    for (const [column, parents] of [
      ['seed_parent', seedParents],
      ['pollen_parent', pollenParents],
    ] as const)
      for (const { genet } of parents)
        if (genet.includes(':') && !known.has(genet))
          faults.push(
            `${name}, row ${row}, column ${column}: “${genet}” is neither a genet of this file nor a genet with its chance, such as A:0.5`,
          );
  if (faults.length > MOST_TOLD)
    faults.splice(MOST_TOLD, faults.length, `and ${faults.length - MOST_TOLD} more like these`);
  if (faults.length > 0) throw new InputError(faults.join('\n'), 'mend these cells');
  if (entries.length === 0)
    throw new InputError(`${name} names no genet`, 'give each genet a row below the columns’ names');
  tellGroups(entries, name, founders);
  const { entries: all, added } = withUnlistedParents(entries);
  if (added.length > 0) {
    const named = added.length > 10 ? `${added.slice(0, 10).join(', ')}, …` : added.join(', ');
    console.error(
      `heed: ${added.length === 1 ? 'one genet is a parent or source without a row of its own and is taken as a founder' : `${added.length} genets are parents or sources without a row of their own and are taken as founders`}: ${named}`,
    );
  }
  return all;
}

/** Says which founder groups change nothing, and why. */
function tellGroups(
  entries: readonly PedigreeEntry[],
  name: string,
  founders: FounderKinship | undefined,
): void {
  const given = (parents: readonly PossibleParent[]) =>
    parents.reduce((sum, { chance }) => sum + chance, 0) > 1 - 1e-9;
  const grouped = entries.filter(({ group }) => group !== null);
  const idle = grouped.filter(
    ({ seedParents, pollenParents, cloneOf }) =>
      cloneOf !== null || (given(seedParents) && given(pollenParents)),
  );
  if (idle.length > 0)
    console.error(
      `heed: ${name}, ${idle.length === 1 ? 'row' : 'rows'} ${inWords(idle.map(({ row }) => row ?? 0))}: the group is left aside; it is for genets whose parents are not all given`,
    );
  if (grouped.length > idle.length && founders === undefined)
    console.error(
      `heed: ${name}: founders of one group are taken as unrelated; --founder-kinship tells how near of kin they are`,
    );
}

/** Kinship of a pedigree file; what is wrong is told with the file and the rows. */
export function kinshipOfFile(
  entries: readonly PedigreeEntry[],
  file: string,
  founders: FounderKinship | undefined,
): Kinship {
  try {
    return kinshipOf(entries, founders, pedigreeProgress(process.stderr));
  } catch (error) {
    if (!(error instanceof PedigreeError)) throw error;
    const { problem, remedy, rows } = error;
    const where = rows.length === 0 ? '' : `, ${rows.length === 1 ? 'row' : 'rows'} ${inWords(rows)}`;
    throw new InputError(`${file}${where}: ${problem}`, remedy);
  }
}

function inWords(rows: readonly number[]): string {
  const told = rows.length > MOST_TOLD ? [...rows.slice(0, MOST_TOLD), '…'] : rows;
  return told.length === 1 ? String(told[0]) : `${told.slice(0, -1).join(', ')} and ${told.at(-1)}`;
}

/**
 * Kinship of founders as the option has it: `0.5` for all groups, or `east=1.5,west=0.3` by group, and `east*west=0.2`
 * between two.
 */
export function readFounderKinship(text: string): FounderKinship {
  const within = new Map<string, number>();
  const between: { groups: readonly [string, string]; kinship: number }[] = [];
  let all: number | null = null;
  for (const part of text.split(',').map((piece) => piece.trim())) {
    const at = part.lastIndexOf('=');
    const kinship = Number(part.slice(at + 1));
    const groups = part
      .slice(0, Math.max(at, 0))
      .split('*')
      .map((group) => group.trim());
    if (part.slice(at + 1).trim() === '' || !Number.isFinite(kinship) || (at >= 0 && groups.includes('')))
      throw new InputError(
        `“${part}” after --founder-kinship is no kinship of founders`,
        'write one number for all groups (0.5), or group=number and group*group=number, separated by commas',
      );
    if (at < 0) all = kinship;
    else if (groups.length === 2) between.push({ groups: [groups[0]!, groups[1]!], kinship });
    else within.set(groups.join('*'), kinship);
  }
  if (all !== null && within.size > 0)
    throw new InputError(
      '--founder-kinship has a number for all groups and numbers for single ones',
      'give either the one or the others',
    );
  return { within: all ?? within, ...(between.length > 0 ? { between } : {}) };
}

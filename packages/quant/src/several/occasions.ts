import { rowNumber } from '../mixed/cells.ts';
import type { Design } from '../mixed/design.ts';
import { ModelError } from '../mixed/model-error.ts';
import type { TraitTable } from './trait-table.ts';

/** Rows, numbered over all traits, in blocks whose errors are correlated: at most one row of each trait. */
export interface Occasions {
  /** Block b holds the rows member[start[b]] … member[start[b + 1] - 1], their traits ascending. */
  readonly start: Int32Array;
  readonly member: Int32Array;
  readonly blockOfRow: Int32Array;
  /** Which set of traits each block has, an index into `patterns`. */
  readonly pattern: Int32Array;
  readonly patterns: readonly (readonly number[])[];
  /** Blocks of each pattern. */
  readonly counts: readonly number[];
}

/** Groups the rows of all traits by occasion. */
export function groupOccasions(traits: readonly TraitTable[], designs: readonly Design[]): Occasions {
  const total = designs.reduce((sum, design) => sum + design.records, 0);
  const blockOfRow = new Int32Array(total);
  const traitOfRow = new Int32Array(total);
  const blockOf = new Map<string, number>();
  const lastTrait: number[] = [];
  let row = 0;
  designs.forEach((design, t) => {
    const cells = occasionCells(traits[t]!);
    for (const index of design.rows) {
      const name = cells ? cells[index]!.trim() : '';
      let block = name === '' ? undefined : blockOf.get(name);
      // A further row of the same trait stands alone.
      if (block === undefined || lastTrait[block] === t) {
        const fresh = lastTrait.length;
        if (name !== '' && block === undefined) blockOf.set(name, fresh);
        block = fresh;
      }
      lastTrait[block] = t;
      traitOfRow[row] = t;
      blockOfRow[row++] = block;
    }
  });
  return { blockOfRow, ...blocks(blockOfRow, traitOfRow, lastTrait.length) };
}

function occasionCells(trait: TraitTable): readonly string[] | null {
  if (trait.occasion === undefined) return null;
  const cells = trait.table.columns.get(trait.occasion);
  if (cells) return cells;
  throw new ModelError(
    `the rows of "${trait.name}" have no column "${trait.occasion}" for the occasion`,
    'Name a column of that table',
    { column: trait.occasion, row: rowNumber(trait.table, 0) - 1 },
  );
}

function blocks(
  blockOfRow: Int32Array,
  traitOfRow: Int32Array,
  count: number,
): Omit<Occasions, 'blockOfRow'> {
  const start = new Int32Array(count + 1);
  for (const block of blockOfRow) start[block + 1] = start[block + 1]! + 1;
  for (let b = 0; b < count; b++) start[b + 1] = start[b + 1]! + start[b]!;
  const fill = start.slice(0, count);
  const member = new Int32Array(blockOfRow.length);
  blockOfRow.forEach((block, r) => {
    member[fill[block]!] = r;
    fill[block] = fill[block]! + 1;
  });
  const known = new Map<string, number>();
  const patterns: number[][] = [];
  const counts: number[] = [];
  const pattern = new Int32Array(count);
  for (let b = 0; b < count; b++) {
    const traits = Array.from(member.subarray(start[b]!, start[b + 1]!), (r) => traitOfRow[r]!);
    const key = traits.join();
    let p = known.get(key);
    if (p === undefined) {
      p = patterns.length;
      known.set(key, p);
      patterns.push(traits);
      counts.push(0);
    }
    pattern[b] = p;
    counts[p] = counts[p]! + 1;
  }
  return { start, member, pattern, patterns, counts };
}

import type { OrderedParentage } from './ancestral-order.ts';
import { PairTable } from './pair-table.ts';

/** All pairs of different parents that some genet has, be it with a small chance. */
export interface Couples {
  readonly table: PairTable;
  /**
   * Number of the couple that each equation's parents make, pair by pair in the order of two loops over them, equation after
   * equation: whoever goes through the equations in order need not look couples up again.
   */
  readonly met: Int32Array;
}

export function couplesOf({ nodes, nodeAt, start, parent }: OrderedParentage): Couples {
  let pairs = 0;
  for (let i = 0; i < nodes; i++) {
    const count = start[i + 1]! - start[i]!;
    pairs += (count * (count - 1)) / 2;
  }
  const table = new PairTable(pairs);
  const met = new Int32Array(pairs);
  let to = 0;
  for (let i = 0; i < nodes; i++) {
    const node = nodeAt[i]!;
    const end = start[node + 1]!;
    for (let e = start[node]!; e < end; e++)
      for (let f = e + 1; f < end; f++) met[to++] = table.numberOf(parent[e]!, parent[f]!);
  }
  return { table, met };
}

/** Couples sorted by some key: those of key k are `order[start[k] … start[k + 1] - 1]`. */
export interface SortedCouples {
  readonly order: Int32Array;
  readonly start: Int32Array;
}

/** Couples by the generation of the younger of the two. */
export function couplesByGeneration(
  couples: PairTable,
  { parents, generationStart }: OrderedParentage,
): SortedCouples {
  const generations = generationStart.length - 1;
  const generationOf = new Int32Array(parents);
  for (let l = 0; l < generations; l++) generationOf.fill(l, generationStart[l]!, generationStart[l + 1]!);
  return sortCouples(couples.count, generations, (k) => generationOf[couples.high(k)]!);
}

/**
 * A stable counting sort.
 *
 * @param some the couples to sort, in order, or how many there are, to sort all
 */
export function sortCouples(
  some: Int32Array | number,
  keys: number,
  keyOf: (couple: number) => number,
): SortedCouples {
  const count = typeof some === 'number' ? some : some.length;
  const start = new Int32Array(keys + 1);
  for (let k = 0; k < count; k++) {
    const key = keyOf(typeof some === 'number' ? k : some[k]!) + 1;
    start[key] = start[key]! + 1;
  }
  for (let key = 0; key < keys; key++) start[key + 1] = start[key + 1]! + start[key]!;
  const next = start.slice();
  const order = new Int32Array(count);
  for (let k = 0; k < count; k++) {
    const couple = typeof some === 'number' ? k : some[k]!;
    const key = keyOf(couple);
    const at = next[key]!;
    order[at] = couple;
    next[key] = at + 1;
  }
  return { order, start };
}

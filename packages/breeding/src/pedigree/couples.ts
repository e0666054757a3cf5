import type { OrderedParentage } from './ancestral-order.ts';
import { PairTable } from './pair-table.ts';
import type { Parentage } from './parentage.ts';

/** All pairs of different parents that some genet has, be it with a small chance. */
export function couplesOf({ nodes, start, parent }: Parentage): PairTable {
  const couples = new PairTable();
  for (let i = 0; i < nodes; i++) {
    const end = start[i + 1]!;
    for (let e = start[i]!; e < end; e++)
      for (let f = e + 1; f < end; f++) couples.numberOf(parent[e]!, parent[f]!);
  }
  return couples;
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
  const all = new Int32Array(couples.count);
  for (let k = 0; k < all.length; k++) all[k] = k;
  return sortCouples(all, generations, (k) => generationOf[couples.high[k]!]!);
}

/** A stable counting sort. */
export function sortCouples(
  some: Int32Array,
  keys: number,
  keyOf: (couple: number) => number,
): SortedCouples {
  const start = new Int32Array(keys + 1);
  for (let k = 0; k < some.length; k++) {
    const key = keyOf(some[k]!) + 1;
    start[key] = start[key]! + 1;
  }
  for (let key = 0; key < keys; key++) start[key + 1] = start[key + 1]! + start[key]!;
  const next = start.slice();
  const order = new Int32Array(some.length);
  for (let k = 0; k < some.length; k++) {
    const key = keyOf(some[k]!);
    const at = next[key]!;
    order[at] = some[k]!;
    next[key] = at + 1;
  }
  return { order, start };
}

import type { OrderedParentage } from './ancestral-order.ts';
import { sortCouples } from './couples.ts';
import { ABREAST, timesRelationshipAbreast } from './eight-passes.ts';
import type { FounderGroups } from './founder-groups.ts';
import type { PairTable } from './pair-table.ts';

/**
 * Writes the relationships of some couples, by one row of A for whichever of the two is in more of them.
 *
 * @param mendelian m of all equations below `end`
 * @param some couples, both of each below `end`
 * @param room for ABREAST vectors of that length, and whom to tell of each pass
 */
export function relateCouples(
  parentage: OrderedParentage,
  founders: FounderGroups,
  mendelian: Float64Array,
  couples: PairTable,
  relationships: Float64Array,
  some: Int32Array,
  end: number,
  {
    vectors,
    onPass,
  }: { readonly vectors: Float64Array; readonly onPass: ((end: number) => void) | undefined },
): void {
  const passing = passingOf(couples, some, end);
  const { order, start } = sortCouples(some, end, passing);
  const abreast: number[] = [];
  const pass = () => {
    let from = 0;
    let upTo = 0;
    for (const node of abreast) {
      from = Math.max(from, node);
      for (let e = start[node]!; e < start[node + 1]!; e++)
        upTo = Math.max(upTo, couples.high(order[e]!) + 1);
    }
    vectors.fill(0, 0, ABREAST * upTo);
    abreast.forEach((node, k) => {
      vectors[ABREAST * node + k] = 1;
    });
    timesRelationshipAbreast(parentage, founders, mendelian, vectors, from, upTo);
    abreast.forEach((node, k) => {
      for (let e = start[node]!; e < start[node + 1]!; e++) {
        const couple = order[e]!;
        const low = couples.low(couple);
        const other = low === node ? couples.high(couple) : low;
        relationships[couple] = vectors[ABREAST * other + k]!;
      }
    });
    abreast.length = 0;
    onPass?.(end);
  };
  for (let node = 0; node < end; node++) {
    if (start[node] === start[node + 1]) continue;
    abreast.push(node);
    if (abreast.length === ABREAST) pass();
  }
  if (abreast.length > 0) pass();
}

/** Of each of some couples, all below `end`, the one that is in more of them: its row serves all of these. */
export function passingOf(couples: PairTable, some: Int32Array, end: number): (couple: number) => number {
  const partners = new Int32Array(end);
  for (let k = 0; k < some.length; k++) {
    const low = couples.low(some[k]!);
    const high = couples.high(some[k]!);
    partners[low] = partners[low]! + 1;
    partners[high] = partners[high]! + 1;
  }
  return (couple) => {
    const low = couples.low(couple);
    const high = couples.high(couple);
    return partners[low]! > partners[high]! ? low : high;
  };
}

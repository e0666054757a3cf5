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
 */
export function relateCouples(
  parentage: OrderedParentage,
  founders: FounderGroups,
  mendelian: Float64Array,
  { low, high }: PairTable,
  relationships: Float64Array,
  some: Int32Array,
  end: number,
): void {
  const partners = new Int32Array(end);
  for (let k = 0; k < some.length; k++) {
    const couple = some[k]!;
    partners[low[couple]!] = partners[low[couple]!]! + 1;
    partners[high[couple]!] = partners[high[couple]!]! + 1;
  }
  const passing = (couple: number) =>
    partners[low[couple]!]! > partners[high[couple]!]! ? low[couple]! : high[couple]!;
  const { order, start } = sortCouples(some, end, passing);
  const vectors = new Float64Array(ABREAST * end);
  const abreast: number[] = [];
  const pass = () => {
    let from = 0;
    let upTo = 0;
    for (const node of abreast) {
      from = Math.max(from, node);
      for (let e = start[node]!; e < start[node + 1]!; e++) upTo = Math.max(upTo, high[order[e]!]! + 1);
    }
    vectors.fill(0, 0, ABREAST * upTo);
    abreast.forEach((node, k) => {
      vectors[ABREAST * node + k] = 1;
    });
    timesRelationshipAbreast(parentage, founders, mendelian, vectors, from, upTo);
    abreast.forEach((node, k) => {
      for (let e = start[node]!; e < start[node + 1]!; e++) {
        const couple = order[e]!;
        const other = low[couple] === node ? high[couple]! : low[couple]!;
        relationships[couple] = vectors[ABREAST * other + k]!;
      }
    });
    abreast.length = 0;
  };
  for (let node = 0; node < end; node++) {
    if (start[node] === start[node + 1]) continue;
    abreast.push(node);
    if (abreast.length === ABREAST) pass();
  }
  if (abreast.length > 0) pass();
}

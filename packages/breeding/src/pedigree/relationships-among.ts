import type { OrderedParentage } from './ancestral-order.ts';
import type { FounderGroups } from './founder-groups.ts';
import type { OwnRelationships } from './inbreeding.ts';
import { timesRelationship } from './relationship-pass.ts';

/** Elements of A on demand, by equation. */
export interface RelationshipsAmong {
  ofPair(i: number, j: number): number;
  /** The whole row of one equation. */
  withAll(i: number): Float64Array;
}

/** Relationships between any equations without the matrix: one pass over the parents for a pair or for one against all. */
export function relationshipsAmong(
  parentage: OrderedParentage,
  groups: FounderGroups,
  { inbreeding, mendelian }: OwnRelationships,
): RelationshipsAmong {
  const { nodes, parents, nodeAt, start, parent, seed, pollen } = parentage;
  const alongParents = (j: number, row: Float64Array): number => {
    let sum = 0;
    for (let e = start[nodeAt[j]!]!; e < start[nodeAt[j]! + 1]!; e++)
      sum += 0.5 * (seed[e]! + pollen[e]!) * row[parent[e]!]!;
    return sum;
  };
  /** Relationships of i with the parents below upTo, i itself excepted if it is none of them. */
  const row = (i: number, upTo: number, size = parents): Float64Array => {
    const vector = new Float64Array(size);
    let from = i;
    if (i < parents) vector[i] = 1;
    else {
      from = 0;
      for (let e = start[nodeAt[i]!]!; e < start[nodeAt[i]! + 1]!; e++) {
        vector[parent[e]!] = 0.5 * (seed[e]! + pollen[e]!);
        from = parent[e]!;
      }
    }
    timesRelationship(parentage, groups, mendelian, vector, from, upTo);
    return vector;
  };
  return {
    ofPair(i, j) {
      if (i === j) return 1 + inbreeding[i]!;
      const [older, younger] = i < j ? [i, j] : [j, i];
      if (older < parents) return row(younger, older + 1)[older]!;
      return alongParents(older, row(younger, parents));
    },
    withAll(i) {
      const vector = row(i, parents, nodes);
      for (let j = parents; j < nodes; j++) vector[j] = alongParents(j, vector);
      vector[i] = 1 + inbreeding[i]!;
      return vector;
    },
  };
}

import type { OrderedParentage } from './ancestral-order.ts';
import type { FounderGroups } from './founder-groups.ts';

/**
 * Turns a vector v over the equations 0 … upTo - 1 of parents into A v, in place: A = T D T', so one way down from progeny
 * to parents (T'), a product with the Mendelian variances (D, of the founder groups Γ), and one way up again (T)
 * (Colleau 2002, Genetics Selection Evolution 34:409, section 2.2).
 *
 * @param from highest equation at which v is not 0; below upTo
 * @param mendelian m of each equation up to `from`
 */
export function timesRelationship(
  parentage: OrderedParentage,
  founders: FounderGroups,
  mendelian: Float64Array,
  vector: Float64Array,
  from: number,
  upTo: number,
): void {
  const { start, parent, weight } = parentage.ancestors;
  const first = parentage.groups;
  for (let j = from; j >= first; j--) {
    const value = vector[j]!;
    if (value === 0) continue;
    for (let e = start[j]!; e < start[j + 1]!; e++) {
      const p = parent[e]!;
      vector[p] = vector[p]! + weight[e]! * value;
    }
    vector[j] = value * mendelian[j]!;
  }
  timesGroupKinship(founders, vector, 1);
  for (let j = first; j < upTo; j++) {
    let sum = vector[j]!;
    for (let e = start[j]!; e < start[j + 1]!; e++) sum += weight[e]! * vector[parent[e]!]!;
    vector[j] = sum;
  }
}

/** Multiplies the elements of the founder groups, which come first, by Γ; `width` vectors side by side. */
export function timesGroupKinship(
  { equations, kinship }: FounderGroups,
  vectors: Float64Array,
  width: number,
): void {
  const size = equations.size;
  if (size === 0) return;
  const before = vectors.slice(0, size * width);
  for (let g = 0; g < size; g++) {
    for (let k = 0; k < width; k++) {
      let sum = 0;
      for (let h = 0; h < size; h++) sum += kinship[g * size + h]! * before[h * width + k]!;
      vectors[g * width + k] = sum;
    }
  }
}

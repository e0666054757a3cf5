import type { Component } from './covariances.ts';
import type { JointDerivatives } from './joint-derivatives.ts';
import type { JointSolution } from './joint-solution.ts';
import { product } from './small-matrix.ts';

/**
 * The covariance matrices after one step of the EM algorithm, which never lowers the likelihood: for each component the mean
 * over its units of the expected products of effects; docs/methods/several-traits.md, line (8). Traits that a unit has no
 * row of are filled in by their regression on those that it has (A. P. Dempster, N. M. Laird and D. B. Rubin 1977, Journal
 * of the Royal Statistical Society B 39:1-38, section 4.1.3).
 */
export function emMatrices(
  components: readonly Component[],
  joint: JointSolution,
  { moments }: JointDerivatives,
): Float64Array[] {
  return components.map(({ traits, groups }, c) => {
    const m = traits.length;
    const matrix = joint.matrices[c]!;
    const sum = new Float64Array(m * m);
    let units = 0;
    groups.forEach((group, g) => {
      units += group.count;
      const full = completed(
        matrix,
        m,
        group.traits,
        joint.inverses[c]![g]!.inverse,
        moments[c]![g]!,
        group.count,
      );
      full.forEach((value, e) => {
        sum[e] = sum[e]! + value;
      });
    });
    return sum.map((value) => value / units);
  });
}

/** B M B' + count (G − B G₁.), with B = G.₁ G₁₁⁻¹ the regression on the traits present. */
function completed(
  matrix: Float64Array,
  m: number,
  present: readonly number[],
  inverse: Float64Array,
  moments: Float64Array,
  count: number,
): Float64Array {
  const n = present.length;
  if (n === m) return moments;
  // Padded to m × m, so that all products are of one size.
  const wide = (part: ArrayLike<number>) => {
    const padded = new Float64Array(m * m);
    for (let a = 0; a < n; a++) for (let b = 0; b < n; b++) padded[a * m + b] = part[a * n + b]!;
    return padded;
  };
  const across = new Float64Array(m * m);
  for (let i = 0; i < m; i++) for (let a = 0; a < n; a++) across[i * m + a] = matrix[i * m + present[a]!]!;
  const regression = product(across, wide(inverse), m);
  const transposed = (x: Float64Array) => x.map((_, e) => x[(e % m) * m + Math.floor(e / m)]!);
  const known = product(product(regression, wide(moments), m), transposed(regression), m);
  const explained = product(regression, transposed(across), m);
  return known.map((value, e) => value + count * (matrix[e]! - explained[e]!));
}

import type { Layout } from './layout.ts';
import type { SmallInverse } from './small-matrix.ts';

/**
 * R⁻¹ x over the rows of all traits: within each occasion √w R₀⁻¹ √w, R₀ among the traits present.
 *
 * @param inverses of the residual's covariance matrix within each pattern of traits
 */
export function precisionTimes(
  layout: Layout,
  inverses: readonly SmallInverse[],
  x: Float64Array,
): Float64Array {
  const { occasions, rootWeights } = layout;
  const product = new Float64Array(x.length);
  for (let block = 0; block < occasions.pattern.length; block++) {
    const first = occasions.start[block]!;
    const n = occasions.start[block + 1]! - first;
    const { inverse } = inverses[occasions.pattern[block]!]!;
    for (let a = 0; a < n; a++) {
      const row = occasions.member[first + a]!;
      let sum = 0;
      for (let b = 0; b < n; b++) {
        const other = occasions.member[first + b]!;
        sum += inverse[a * n + b]! * rootWeights[other]! * x[other]!;
      }
      product[row] = rootWeights[row]! * sum;
    }
  }
  return product;
}

/** Σ √(wᵣ wₛ) eᵣ eₛ over the occasions of each pattern, for each pair of its traits; row by row. */
export function residualSquares(layout: Layout, e: Float64Array): Float64Array[] {
  const { occasions, rootWeights } = layout;
  const squares = occasions.patterns.map(({ length }) => new Float64Array(length * length));
  for (let block = 0; block < occasions.pattern.length; block++) {
    const first = occasions.start[block]!;
    const n = occasions.start[block + 1]! - first;
    const sums = squares[occasions.pattern[block]!]!;
    for (let a = 0; a < n; a++) {
      const row = occasions.member[first + a]!;
      for (let b = 0; b < n; b++) {
        const other = occasions.member[first + b]!;
        sums[a * n + b] = sums[a * n + b]! + rootWeights[row]! * e[row]! * rootWeights[other]! * e[other]!;
      }
    }
  }
  return squares;
}

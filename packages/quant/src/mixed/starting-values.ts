import type { Design } from './design.ts';

/** A starting variance is at least this share of the variance that the fixed terms leave. */
const LEAST_SHARE = 0.01;
/** Terms together start with at most this share; the residual has the rest. */
const MOST_TOGETHER = 0.8;

/**
 * Starting variances by the analysis of variance of each term alone (C. R. Henderson 1953, Biometrics 9:226-252, method
 * 1, on least-squares residuals): with nᵢ rows and mean r̄ᵢ in level i, the sum of squares between levels has expectation
 * (q - 1) σ²_rest + (n - Σ nᵢ²/n) σ²_term. Nested terms claim the same differences, so all are scaled down together where
 * they claim too much. They only start the search.
 */
export function startingValues(design: Design): Float64Array {
  const { terms, weights, leastSquares } = design;
  const total = leastSquares.variance;
  const variances = new Float64Array(terms.length + 1);
  let claimed = 0;
  terms.forEach((term, t) => {
    const { between, levels, balance } = betweenLevels(
      term.entries.at,
      term.size,
      weights,
      leastSquares.residuals,
    );
    const estimate = balance > 0 ? (between - (levels - 1) * total) / balance : 0;
    variances[t] = Math.max(LEAST_SHARE * total, estimate);
    claimed += variances[t]!;
  });
  const scale = Math.min(1, (MOST_TOGETHER * total) / claimed);
  let rest = total;
  terms.forEach((_, t) => {
    variances[t] = scale * variances[t]!;
    rest -= variances[t]!;
  });
  variances[terms.length] = rest;
  return variances;
}

function betweenLevels(
  at: Int32Array,
  size: number,
  weights: Float64Array,
  residuals: Float64Array,
): { between: number; levels: number; balance: number } {
  const sums = new Float64Array(size);
  const counts = new Float64Array(size);
  let n = 0;
  for (let k = 0; k < at.length; k++) {
    const level = at[k]!;
    if (level < 0) continue;
    sums[level] = sums[level]! + weights[k]! * residuals[k]!;
    counts[level] = counts[level]! + weights[k]!;
    n += weights[k]!;
  }
  let between = 0;
  let squares = 0;
  let levels = 0;
  for (let i = 0; i < size; i++) {
    if (counts[i] === 0) continue;
    levels++;
    between += sums[i]! ** 2 / counts[i]!;
    squares += counts[i]! ** 2;
  }
  return { between, levels, balance: n - squares / n };
}

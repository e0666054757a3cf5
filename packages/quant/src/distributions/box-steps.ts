import { intervalChance, meanWithin } from './interval.ts';

/** Conditional variances below this share of a variable's own are zero: it is a sum of those before. */
const DETERMINED_BELOW = 1e-12;
const NEGATIVE_BELOW = -1e-8;
const COEFFICIENT_BELOW = 1e-7;

/** low ≤ Σ before[k] y[k] + own × (y of the step) ≤ high */
interface BoxLimit {
  readonly before: Float64Array;
  readonly own: number;
  readonly low: number;
  readonly high: number;
}

/** The limits on each independent standard normal variable, given those before it. */
export type BoxSteps = readonly (readonly BoxLimit[])[];

/**
 * Turns the box of a normal variable with correlations into limits on independent standard normal variables y, one after
 * another, by a Cholesky factorisation x = L y that takes the tightest limit first (G. J. Gibson, C. A. Glasbey and D. A.
 * Elston 1994; A. Genz and F. Bretz 2009, section 4.1.3). A variable that others determine adds its limits to those of the
 * last y that it depends on (A. Genz and K.-S. Kwong 2000, Journal of Statistical Computation and Simulation 68:1-21).
 *
 * @param correlation row by row, changed in place; positive semidefinite
 * @param low limits in standard deviations from the mean
 * @throws RangeError when the matrix is not positive semidefinite
 */
export function boxSteps(
  correlation: Float64Array,
  low: ArrayLike<number>,
  high: ArrayLike<number>,
): BoxSteps {
  const d = low.length;
  const lower = Array.from({ length: d }, () => new Float64Array(d));
  const expected = new Float64Array(d);
  const left = new Set(Array.from({ length: d }, (_, i) => i));
  const steps: BoxLimit[][] = [];
  const rest = (i: number) => correlation[i * d + i]!;
  for (let k = 0; k < d; k++) {
    let next = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const i of left) {
      if (rest(i) < NEGATIVE_BELOW)
        throw new RangeError('the covariance matrix is not positive semidefinite');
      if (rest(i) < DETERMINED_BELOW) continue;
      const sd = Math.sqrt(rest(i));
      let mean = 0;
      for (let m = 0; m < k; m++) mean += lower[i]![m]! * expected[m]!;
      const chance = intervalChance((low[i]! - mean) / sd, (high[i]! - mean) / sd);
      if (chance < least) {
        least = chance;
        next = i;
      }
    }
    if (next < 0) break;
    left.delete(next);
    const pivot = Math.sqrt(rest(next));
    let mean = 0;
    for (let m = 0; m < k; m++) mean += lower[next]![m]! * expected[m]!;
    lower[next]![k] = pivot;
    expected[k] = meanWithin((low[next]! - mean) / pivot, (high[next]! - mean) / pivot);
    for (const i of left) lower[i]![k] = correlation[i * d + next]! / pivot;
    for (const i of left) {
      for (const j of left) {
        correlation[i * d + j] = correlation[i * d + j]! - lower[i]![k]! * lower[j]![k]!;
      }
    }
    steps.push([{ before: lower[next]!.slice(0, k), own: pivot, low: low[next]!, high: high[next]! }]);
  }
  for (const i of left) {
    let last = steps.length - 1;
    while (last > 0 && Math.abs(lower[i]![last]!) < COEFFICIENT_BELOW) last--;
    const limit = { before: lower[i]!.slice(0, last), own: lower[i]![last]!, low: low[i]!, high: high[i]! };
    steps[last]!.push(limit);
  }
  return steps;
}

import type { Random } from '../random/seeded-random.ts';

/** Random shifts of the point set; the spread of their means tells the error. */
const SHIFTS = 12;
const FIRST_POINTS = 64;
const MOST_POINTS = 1 << 16;

/** A mean over the unit cube; `error` is three times its standard error. */
export interface CubeMean {
  readonly mean: number;
  readonly error: number;
}

/**
 * Mean of a function over the unit cube by randomly shifted points of Richtmyer's sequence, {k √pⱼ} with pⱼ the j-th prime,
 * folded so that the function need not be periodic (R. Cranley and T. N. L. Patterson 1976, SIAM Journal on Numerical
 * Analysis 13:904-914; A. Genz and F. Bretz 2009, Computation of Multivariate Normal and t Probabilities, section 4.2).
 * Points are doubled until the error is within the tolerance, or 65,536 for each of 12 shifts are spent.
 *
 * @param dimension 1 or more
 * @param tolerance absolute
 */
export function meanOverCube(
  f: (point: Float64Array) => number,
  dimension: number,
  random: Random,
  tolerance: number,
): CubeMean {
  const step = primes(dimension).map((p) => Math.sqrt(p) % 1);
  const shifts = Array.from({ length: SHIFTS }, () => step.map(() => random.uniform()));
  const sums = new Float64Array(SHIFTS);
  const point = new Float64Array(dimension);
  let done = 0;
  for (let points = FIRST_POINTS; ; points *= 2) {
    shifts.forEach((shift, s) => {
      let sum = 0;
      for (let k = done + 1; k <= points; k++) {
        for (let j = 0; j < dimension; j++) point[j] = Math.abs(2 * ((k * step[j]! + shift[j]!) % 1) - 1);
        sum += f(point);
      }
      sums[s] = sums[s]! + sum;
    });
    done = points;
    const mean = sums.reduce((total, sum) => total + sum / points, 0) / SHIFTS;
    const squares = sums.reduce((total, sum) => total + (sum / points - mean) ** 2, 0);
    const error = 3 * Math.sqrt(squares / (SHIFTS * (SHIFTS - 1)));
    if (error <= tolerance || points >= MOST_POINTS) return { mean, error };
  }
}

function primes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) if (found.every((p) => n % p !== 0)) found.push(n);
  return found;
}

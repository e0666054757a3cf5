import { betaDraw, gammaDraw } from './gamma.ts';
import type { Uniform } from './uniform.ts';

/** Below this size counting or searching step by step is quicker than splitting. */
const SMALL = 24;

/**
 * Number of successes among n trials with chance p each.
 *
 * Large n are halved exactly: the middle order statistic of n uniforms is Beta(i, n + 1 - i), and says on which side of
 * p the halves lie (L. Devroye 1986, Non-Uniform Random Variate Generation, Springer, section X.4.3, the recursive
 * binomial generator). Small n are counted one by one.
 */
export function binomialDraw(uniform: Uniform, n: number, p: number): number {
  if (!Number.isInteger(n) || n < 0)
    throw new RangeError(`binomial: n must be a whole number of 0 or more, got ${n}`);
  if (!(p >= 0 && p <= 1)) throw new RangeError(`binomial: p must lie between 0 and 1, got ${p}`);
  let left = n;
  let chance = p;
  let successes = 0;
  while (left > SMALL && chance > 0 && chance < 1) {
    const middle = 1 + Math.floor(left / 2);
    const split = betaDraw(uniform, middle, left + 1 - middle);
    if (split <= chance) {
      successes += middle;
      left -= middle;
      chance = Math.min(1, (chance - split) / (1 - split));
    } else {
      left = middle - 1;
      chance = Math.min(1, chance / split);
    }
  }
  if (chance >= 1) return successes + left;
  if (chance <= 0) return successes;
  for (let i = 0; i < left; i++) if (uniform() < chance) successes++;
  return successes;
}

/**
 * Poisson count of the given mean.
 *
 * A large mean is reduced exactly by the time of the m-th arrival, which is Gamma(m): J. H. Ahrens and U. Dieter 1974,
 * Computing 12:223-246, algorithm PG. Small means by multiplying uniforms (Knuth 1969).
 */
export function poissonDraw(uniform: Uniform, mean: number): number {
  if (!(mean >= 0 && Number.isFinite(mean)))
    throw new RangeError(`poisson: mean must be 0 or more, got ${mean}`);
  let left = mean;
  let count = 0;
  while (left > SMALL) {
    const arrivals = Math.floor((7 * left) / 8);
    const time = gammaDraw(uniform, arrivals, 1);
    if (time > left) return count + binomialDraw(uniform, arrivals - 1, left / time);
    count += arrivals;
    left -= time;
  }
  const floor = Math.exp(-left);
  let product = uniform();
  while (product > floor) {
    count++;
    product *= uniform();
  }
  return count;
}

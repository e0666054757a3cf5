import { normalQuantile } from '../distributions/normal.ts';
import { binomialDraw, poissonDraw } from './counts.ts';
import { betaDraw, gammaDraw } from './gamma.ts';
import { xoshiroNext, xoshiroStateFrom } from './xoshiro.ts';

/** A stream of random numbers that is the same on every run for the same seed. */
export interface Random {
  /** Uniform on the open interval (0, 1), 52 bits. */
  uniform(): number;
  /** Whole number from 0 to below - 1, each equally likely; `below` from 1 to 2^32. */
  integer(below: number): number;
  /** Normal with mean (0) and standard deviation (1). */
  normal(mean?: number, sd?: number): number;
  /** Gamma with mean shape x scale. */
  gamma(shape: number, scale: number): number;
  /** Beta with mean a / (a + b). */
  beta(a: number, b: number): number;
  /** Successes among n trials with chance p. */
  binomial(n: number, p: number): number;
  /** Poisson count. */
  poisson(mean: number): number;
  /** Shuffles the array in place (Fisher and Yates; Durstenfeld 1964) and returns it. */
  shuffle<T>(array: T[]): T[];
  /** One element, each equally likely; an empty array is a RangeError. */
  pick<T>(array: readonly T[]): T;
  /**
   * A stream of its own, fixed by this stream's seed and the label alone: how much was drawn from this stream before
   * does not matter, so adding a draw in one place leaves other places as they were.
   */
  fork(label: string): Random;
}

/**
 * Seeded random numbers from xoshiro128** (see `xoshiro.ts`).
 *
 * @param seed number or text; the same seed gives the same numbers bit for bit
 */
export function seededRandom(seed: number | string): Random {
  const origin = String(seed);
  const state = xoshiroStateFrom(origin);

  function uniform(): number {
    const high = xoshiroNext(state) >>> 6;
    const low = xoshiroNext(state) >>> 6;
    // (k + 1/2) / 2^52: the half keeps 0 and 1 out, and is exact in double precision.
    return (high * 0x4000000 + low + 0.5) / 0x10000000000000;
  }

  function integer(below: number): number {
    if (!Number.isInteger(below) || below < 1 || below > 0x100000000) {
      throw new RangeError(`integer: below must be a whole number from 1 to 2^32, got ${below}`);
    }
    // Numbers past the last whole multiple are drawn again, else small results would be a little likelier.
    const limit = 0x100000000 - (0x100000000 % below);
    let drawn = xoshiroNext(state);
    while (drawn >= limit) drawn = xoshiroNext(state);
    return drawn % below;
  }

  return {
    uniform,
    integer,
    normal: (mean = 0, sd = 1) => mean + sd * normalQuantile(uniform()),
    gamma: (shape, scale) => gammaDraw(uniform, shape, scale),
    beta: (a, b) => betaDraw(uniform, a, b),
    binomial: (n, p) => binomialDraw(uniform, n, p),
    poisson: (mean) => poissonDraw(uniform, mean),
    shuffle(array) {
      for (let i = array.length - 1; i > 0; i--) {
        const j = integer(i + 1);
        const held = array[i]!;
        array[i] = array[j]!;
        array[j] = held;
      }
      return array;
    },
    pick(array) {
      if (array.length === 0) throw new RangeError('pick: the array is empty');
      return array[integer(array.length)]!;
    },
    fork: (label) => seededRandom(`${origin.length}:${origin}/${label}`),
  };
}

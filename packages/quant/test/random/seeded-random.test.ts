import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../src/distributions/normal.ts';
import { type Random, seededRandom } from '../../src/random/seeded-random.ts';

/** Pearson's chi-square of counts against chances, cells with small expectation joined to the last one. */
function chiSquare(
  counts: readonly number[],
  chances: readonly number[],
  draws: number,
): { value: number; df: number } {
  let value = 0;
  let cells = 0;
  let restCount = draws;
  let restExpected = draws;
  for (let i = 0; i < chances.length; i++) {
    const expected = chances[i]! * draws;
    if (expected < 8) continue;
    value += ((counts[i] ?? 0) - expected) ** 2 / expected;
    restCount -= counts[i] ?? 0;
    restExpected -= expected;
    cells++;
  }
  if (restExpected < 8) return { value, df: cells - 1 };
  return { value: value + (restCount - restExpected) ** 2 / restExpected, df: cells };
}

/** Upper limit that a chi-square passes with chance about 1e-4 (Wilson and Hilferty 1931). */
function chiSquareLimit(df: number): number {
  const k = 2 / (9 * df);
  return df * (1 - k + 3.719 * Math.sqrt(k)) ** 3;
}

function tally(draw: () => number, draws: number): number[] {
  const counts: number[] = [];
  for (let i = 0; i < draws; i++) {
    const value = draw();
    counts[value] = (counts[value] ?? 0) + 1;
  }
  return counts;
}

/** Binomial chances by the ratio of neighbours, from the definition. */
function binomialChances(n: number, p: number): number[] {
  const log: number[] = [n * Math.log1p(-p)];
  for (let k = 1; k <= n; k++) log[k] = log[k - 1]! + Math.log(((n - k + 1) / k) * (p / (1 - p)));
  return log.map(Math.exp);
}

function poissonChances(mean: number, upTo: number): number[] {
  const log: number[] = [-mean];
  for (let k = 1; k <= upTo; k++) log[k] = log[k - 1]! + Math.log(mean / k);
  return log.map(Math.exp);
}

function moments(draw: () => number, draws: number): { mean: number; variance: number } {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < draws; i++) {
    const x = draw();
    sum += x;
    squares += x * x;
  }
  const mean = sum / draws;
  return { mean, variance: squares / draws - mean * mean };
}

const DRAWS = 40_000;

describe('seeded random numbers', () => {
  it('repeat for the same seed and differ for another', () => {
    const take = (random: Random) => Array.from({ length: 20 }, () => random.uniform());
    expect(take(seededRandom(7))).toEqual(take(seededRandom(7)));
    expect(take(seededRandom(7))).not.toEqual(take(seededRandom(8)));
  });

  it('fork by label alone, whatever was drawn before', () => {
    const fresh = seededRandom('garden').fork('weather');
    const used = seededRandom('garden');
    for (let i = 0; i < 50; i++) used.uniform();
    const late = used.fork('weather');
    expect(Array.from({ length: 5 }, () => late.uniform())).toEqual(
      Array.from({ length: 5 }, () => fresh.uniform()),
    );
    expect(seededRandom('garden').fork('soil').uniform()).not.toBe(
      seededRandom('garden').fork('weather').uniform(),
    );
    expect(seededRandom('a').fork('b/c').uniform()).not.toBe(seededRandom('a').fork('b').fork('c').uniform());
  });

  it('are uniform, integers without bias', () => {
    const random = seededRandom(1);
    const tenths = tally(() => Math.floor(random.uniform() * 10), DRAWS);
    const byTenth = chiSquare(tenths, new Array<number>(10).fill(0.1), DRAWS);
    expect(byTenth.value).toBeLessThan(chiSquareLimit(byTenth.df));
    const sevenths = chiSquare(
      tally(() => random.integer(7), DRAWS),
      new Array<number>(7).fill(1 / 7),
      DRAWS,
    );
    expect(sevenths.value).toBeLessThan(chiSquareLimit(sevenths.df));
    // 3 x 2^30 leaves a quarter of the words over: without drawing anew the lowest third would come half as often again.
    const below = 3 * 2 ** 30;
    const thirds = chiSquare(
      tally(() => Math.floor(random.integer(below) / 2 ** 30), DRAWS),
      new Array<number>(3).fill(1 / 3),
      DRAWS,
    );
    expect(thirds.value).toBeLessThan(chiSquareLimit(thirds.df));
  });

  it('have normal draws that follow the normal distribution (Kolmogorov and Smirnov)', () => {
    const random = seededRandom(2);
    const sorted = Array.from({ length: DRAWS }, () => random.normal(10, 3)).sort((a, b) => a - b);
    let gap = 0;
    sorted.forEach((x, i) => {
      gap = Math.max(gap, Math.abs(normalCdf((x - 10) / 3) - (i + 0.5) / DRAWS));
    });
    // Kolmogorov's limit that is passed with chance 1e-4 is 2.23 / sqrt(n).
    expect(gap).toBeLessThan(2.23 / Math.sqrt(DRAWS));
  });

  it.each([
    [0.3, 2],
    [1, 1],
    [4.5, 0.5],
    [120, 3],
  ])('have gamma draws (shape %d, scale %d) with the right mean and variance', (shape, scale) => {
    const random = seededRandom(`gamma ${shape}`);
    const { mean, variance } = moments(() => random.gamma(shape, scale), DRAWS);
    const sd = scale * Math.sqrt(shape);
    expect(Math.abs(mean - shape * scale)).toBeLessThan((4 * sd) / Math.sqrt(DRAWS));
    // Variance of a sample variance: sd^4 (2 + excess kurtosis 6 / shape) / n.
    expect(Math.abs(variance - sd * sd)).toBeLessThan(4 * sd * sd * Math.sqrt((2 + 6 / shape) / DRAWS));
  });

  it.each([
    [0.5, 0.5],
    [2, 5],
    [0.5, 50],
  ])('have beta draws (%d, %d) with the right mean and variance', (a, b) => {
    const random = seededRandom(`beta ${a} ${b}`);
    const { mean, variance } = moments(() => random.beta(a, b), DRAWS);
    const expected = (a * b) / ((a + b) ** 2 * (a + b + 1));
    expect(Math.abs(mean - a / (a + b))).toBeLessThan(4 * Math.sqrt(expected / DRAWS));
    expect(Math.abs(variance / expected - 1)).toBeLessThan(0.08);
  });

  it.each([
    [10, 0.3],
    [100, 0.02],
    [500, 0.75],
    [2000, 0.5],
  ])('have binomial draws (%d, %d) with the exact chances', (n, p) => {
    const random = seededRandom(`binomial ${n}`);
    const fit = chiSquare(
      tally(() => random.binomial(n, p), DRAWS),
      binomialChances(n, p),
      DRAWS,
    );
    expect(fit.value).toBeLessThan(chiSquareLimit(fit.df));
  });

  it.each([0.4, 6, 40, 900])('have Poisson draws of mean %d with the exact chances', (mean) => {
    const random = seededRandom(`poisson ${mean}`);
    const fit = chiSquare(
      tally(() => random.poisson(mean), DRAWS),
      poissonChances(mean, 3 * mean + 20),
      DRAWS,
    );
    expect(fit.value).toBeLessThan(chiSquareLimit(fit.df));
  });

  it('hold the certain cases', () => {
    const random = seededRandom(3);
    expect([
      random.binomial(1000, 0),
      random.binomial(1000, 1),
      random.binomial(0, 0.5),
      random.poisson(0),
    ]).toEqual([0, 1000, 0, 0]);
    expect(random.integer(1)).toBe(0);
  });

  it('shuffle into every order equally often and keep the elements', () => {
    const random = seededRandom(4);
    const orders = ['abc', 'acb', 'bac', 'bca', 'cab', 'cba'];
    const counts = tally(() => orders.indexOf(random.shuffle(['a', 'b', 'c']).join('')), DRAWS);
    const fit = chiSquare(counts, new Array<number>(6).fill(1 / 6), DRAWS);
    expect(fit.value).toBeLessThan(chiSquareLimit(fit.df));
  });

  it('refuse parameters outside their range by name', () => {
    const random = seededRandom(5);
    expect(() => random.gamma(0, 1)).toThrow('shape must be above 0, got 0');
    expect(() => random.beta(1, -1)).toThrow('both parameters must be above 0');
    expect(() => random.binomial(2.5, 0.5)).toThrow('n must be a whole number');
    expect(() => random.binomial(3, 1.5)).toThrow('p must lie between 0 and 1');
    expect(() => random.poisson(-1)).toThrow('mean must be 0 or more');
    expect(() => random.integer(0)).toThrow('below must be a whole number from 1');
    expect(() => random.pick([])).toThrow('the array is empty');
  });
});

import { describe, expect, it } from 'vitest';
import { boxProbability, normalCdf, seededRandom } from '../../src/index.ts';

const INFINITE = Number.POSITIVE_INFINITY;
const box = (
  mean: number[],
  covariance: number[][],
  low: number[],
  high: number[],
  tolerance = 1e-5,
  seed = 1,
) => boxProbability(mean, covariance.flat(), low, high, { random: seededRandom(seed), tolerance });
/** Chance that all elements are positive. */
const orthant = (covariance: number[][]) =>
  box(
    covariance.map(() => 0),
    covariance,
    covariance.map(() => 0),
    covariance.map(() => INFINITE),
  );
const equal = (d: number, r: number) =>
  Array.from({ length: d }, (_, i) => Array.from({ length: d }, (__, j) => (i === j ? 1 : r)));

describe('chance of a box under a normal distribution', () => {
  it('is exact for one element and for independent ones, tails included', () => {
    expect(box([1], [[4]], [-1], [2])).toEqual({ chance: normalCdf(0.5) - normalCdf(-1), error: 0 });
    const tail = box([0], [[1]], [9], [INFINITE]);
    // source: Φ(-9), scipy 1.17.1 (stats.norm.cdf)
    expect(tail.chance / 1.128588405954e-19).toBeCloseTo(1, 10);
    const three = box(
      [0, 1, 2],
      [
        [1, 0, 0],
        [0, 4, 0],
        [0, 0, 9],
      ],
      [0, -INFINITE, 2],
      [1, 1, 5],
    );
    expect(three.error).toBe(0);
    expect(three.chance).toBeCloseTo((normalCdf(1) - 0.5) * 0.5 * (normalCdf(1) - 0.5), 14);
  });

  it('is the orthant formula for two elements', () => {
    // source: W. F. Sheppard 1898: ¼ + asin(ρ)/2π.
    for (const r of [-0.95, -0.4, 0.2, 0.9, 0.999]) {
      const { chance, error } = orthant(equal(2, r));
      const expected = 0.25 + Math.asin(r) / (2 * Math.PI);
      expect(Math.abs(chance - expected)).toBeLessThan(Math.max(2 * error, 1e-7));
      expect(error).toBeLessThan(1e-5);
    }
  });

  it('is the orthant formula for three elements', () => {
    // source: F. N. David 1953, Biometrika 40:458-459: 1/8 + Σ asin(ρ)/4π.
    const c = [
      [1, 0.3, -0.5],
      [0.3, 1, 0.2],
      [-0.5, 0.2, 1],
    ];
    const { chance, error } = orthant(c);
    const expected = 0.125 + (Math.asin(0.3) + Math.asin(-0.5) + Math.asin(0.2)) / (4 * Math.PI);
    expect(Math.abs(chance - expected)).toBeLessThan(Math.max(2 * error, 1e-7));
  });

  it('is 1 / (d + 1) for d elements with correlations of a half', () => {
    // source: each of d + 1 independent draws is equally likely the least (C. W. Dunnett and M. Sobel 1955).
    for (const d of [4, 7, 12]) {
      const { chance, error } = orthant(equal(d, 0.5));
      expect(Math.abs(chance - 1 / (d + 1))).toBeLessThan(Math.max(2 * error, 1e-6));
    }
  });

  it('is that of the example of Genz', () => {
    // source: A. Genz 1992, section 3, the example as recalled (from memory); value recomputed by nested one-dimensional
    // quadrature (scipy 1.17.1, quad): 0.827984897457.
    const c = [
      [1, 3 / 5, 1 / 3],
      [3 / 5, 1, 11 / 15],
      [1 / 3, 11 / 15, 1],
    ];
    const { chance, error } = box([0, 0, 0], c, [-INFINITE, -INFINITE, -INFINITE], [1, 4, 2]);
    expect(Math.abs(chance - 0.827984897457)).toBeLessThan(Math.max(2 * error, 1e-7));
  });

  it('is that of a reference library for five elements with means, variances and all kinds of limits', () => {
    // source: scipy 1.17.1, stats.multivariate_normal.cdf with lower_limit, absolute error 1e-9: 0.06677692
    const c = [
      [38, -32, -1, 21, 13],
      [-32, 42, 19, -29, -22],
      [-1, 19, 59, -2, -15],
      [21, -29, -2, 43, -2],
      [13, -22, -15, -2, 50],
    ];
    const { chance, error } = box([1, 0, 2, -1, 3], c, [-3, -8, -INFINITE, -2, 1], [6, INFINITE, 4, 9, 8]);
    expect(Math.abs(chance - 0.06677692)).toBeLessThan(2 * error);
    expect(error).toBeLessThan(1e-5);
  });

  it('has an error that covers the truth in nearly all of 200 runs', () => {
    const expected = 1 / 7;
    let outside = 0;
    for (let seed = 0; seed < 200; seed++) {
      const low = Array.from({ length: 6 }, () => 0);
      const high = low.map(() => INFINITE);
      const { chance, error } = box(low, equal(6, 0.5), low, high, 2e-3, seed);
      if (Math.abs(chance - expected) > error) outside++;
    }
    expect(outside).toBeLessThan(10);
  });
});

describe('degenerate boxes', () => {
  it('take an element without variance as known', () => {
    const c = [
      [1, 0],
      [0, 0],
    ];
    expect(box([0, 3], c, [0, 3], [INFINITE, 4]).chance).toBeCloseTo(0.5, 14);
    expect(box([0, 3], c, [0, 3.1], [INFINITE, 4])).toEqual({ chance: 0, error: 0 });
  });

  it('are exact where elements copy or mirror one another', () => {
    const copy = box([0, 0], equal(2, 1), [-1, 0.5], [2, INFINITE]);
    expect(copy.chance).toBeCloseTo(normalCdf(2) - normalCdf(0.5), 12);
    expect(copy.error).toBe(0);
    const mirror = box(
      [0, 0],
      equal(2, -1).map((row, i) => row.map((v, j) => (i === j ? 1 : v))),
      [0, -1],
      [3, 5],
    );
    expect(mirror.chance).toBeCloseTo(normalCdf(1) - 0.5, 12);
    expect(box([0, 0], equal(2, -1), [1, 1], [3, 3]).chance).toBe(0);
  });

  it('are right where one element is the sum of two others', () => {
    // x, y > 0 and x + y < 1.3; source: ∫₀¹·³ φ(x) (Φ(1.3 − x) − ½) dx by scipy 1.17.1 (quad) = 0.10305041429619
    const c = [
      [1, 0, 1],
      [0, 1, 1],
      [1, 1, 2],
    ];
    const { chance, error } = box([0, 0, 0], c, [0, 0, -INFINITE], [INFINITE, INFINITE, 1.3]);
    expect(Math.abs(chance - 0.10305041429619)).toBeLessThan(Math.max(2 * error, 1e-7));
  });

  it('are 0 when empty, 1 without limits, and refused when no covariance matrix is given', () => {
    expect(box([0], [[1]], [2], [1]).chance).toBe(0);
    expect(box([0, 0], equal(2, 0.5), [-INFINITE, -INFINITE], [INFINITE, INFINITE])).toEqual({
      chance: 1,
      error: 0,
    });
    expect(() => box([0, 0], equal(2, 1.5), [0, 0], [1, 1])).toThrow('not positive semidefinite');
    expect(() => box([0], [[-1]], [0], [1])).toThrow('the variance of element 0 is -1');
    expect(() => box([0], [[1]], [0, 1], [1])).toThrow('1 means need 1 covariances');
    expect(() => box([0], [[1]], [Number.NaN], [1])).toThrow('not a number');
  });
});

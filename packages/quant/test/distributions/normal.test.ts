import { describe, expect, it } from 'vitest';
import { normalCdf, normalDensity, normalQuantile } from '../../src/distributions/normal.ts';

// source: computed with 40 digits by the arbitrary-precision library mpmath 1.3.0 (erfc and erfinv), rounded to double.
const CDF: readonly (readonly [z: number, chance: number])[] = [
  [-37, 5.725571222524577e-300],
  [-30, 4.906713927148187e-198],
  [-20, 2.7536241186062337e-89],
  [-12, 1.776482112077679e-33],
  [-8, 6.220960574271784e-16],
  [-6, 9.86587645037698e-10],
  [-5.5, 1.8989562465887718e-8],
  [-5, 2.866515718791939e-7],
  [-4, 3.1671241833119924e-5],
  [-3.3, 0.0004834241423837775],
  [-3, 0.0013498980316300946],
  [-2.5, 0.006209665325776135],
  [-1.96, 0.024997895148220435],
  [-1, 0.15865525393145705],
  [-0.6, 0.2742531177500736],
  [-0.3, 0.3820885778110474],
  [-0.001, 0.49960105778608893],
  [0, 0.5],
  [1e-10, 0.5000000000398942],
  [0.25, 0.5987063256829237],
  [0.66, 0.7453730853286639],
  [0.7, 0.758036347776927],
  [1, 0.8413447460685429],
  [1.5, 0.9331927987311419],
  [1.959963984540054, 0.975],
  [2.4, 0.9918024640754038],
  [3, 0.9986501019683699],
  [4, 0.9999683287581669],
  [5, 0.9999997133484281],
  [6, 0.9999999990134123],
  [8, 0.9999999999999993],
];
const QUANTILE: readonly (readonly [chance: number, z: number])[] = [
  [1e-300, -37.0470962993612],
  [1e-100, -21.273453560965326],
  [1e-20, -9.262340089798407],
  [1e-12, -7.034483825301132],
  [1e-11, -6.706023155495136],
  [1e-6, -4.753424308822899],
  [0.001, -3.0902323061678136],
  [0.02425, -1.972961051311885],
  [0.025, -1.9599639845400543],
  [0.05, -1.6448536269514726],
  [0.075, -1.439531470938456],
  [0.1, -1.2815515655446004],
  [0.25, -0.6744897501960817],
  [0.4, -0.2533471031357997],
  [0.5, 0.0],
  [0.6, 0.2533471031357997],
  [0.9, 1.2815515655446006],
  [0.925, 1.4395314709384561],
  [0.95, 1.6448536269514722],
  [0.975, 1.9599639845400538],
  [0.99, 2.3263478740408408],
  [0.999, 3.090232306167813],
  [0.999999, 4.753424308817087],
  [0.999999999, 5.9978070196016375],
];

const relativeError = (got: number, expected: number): number =>
  expected === 0 ? Math.abs(got) : Math.abs(got / expected - 1);

describe('normal distribution', () => {
  it.each(CDF)('has the chance below %d right to rounding', (z, chance) => {
    // The condition of Φ grows like z² in the left tail: half a unit in the last place of z alone gives z² × 1.1e-16.
    expect(relativeError(normalCdf(z), chance)).toBeLessThan(2e-15 + 2e-16 * z * z);
  });

  it.each(QUANTILE)('has the quantile of %d right to rounding', (chance, z) => {
    expect(relativeError(normalQuantile(chance), z)).toBeLessThan(1e-15);
  });

  it('returns where it came from', () => {
    for (let z = -8; z < 5; z += 0.37) expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 9);
  });

  it('has limits at the ends and no answer outside', () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(-0.1)).toBeNaN();
    expect(normalQuantile(Number.NaN)).toBeNaN();
    expect(normalCdf(-40)).toBe(0);
    expect(normalCdf(40)).toBe(1);
    expect(normalCdf(Number.NaN)).toBeNaN();
  });

  it('has the density as its slope', () => {
    const step = 1e-5;
    for (const z of [-2.5, -0.4, 0, 1.3]) {
      const slope = (normalCdf(z + step) - normalCdf(z - step)) / (2 * step);
      expect(Math.abs(normalDensity(z) - slope)).toBeLessThan(1e-10);
    }
  });
});

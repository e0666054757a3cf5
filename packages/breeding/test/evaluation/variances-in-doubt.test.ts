import { fitModel, type Model, normalCdf, normalDensity, seededRandom, type Table } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import {
  choleskyFactor,
  solveByFactor,
  truncatedNormalPoints,
} from '../../src/evaluation/variances-in-doubt/truncated-normal-points.ts';
import { weightedFits } from '../../src/evaluation/variances-in-doubt/weighted-fits.ts';

describe('points of a normal distribution cut off at 0', () => {
  it('have the mean and variance of the truncated normal', () => {
    // source: Johnson, Kotz & Balakrishnan 1994, Continuous Univariate Distributions 1, section 13.10.1.
    for (const [mean, sd] of [
      [1, 2],
      [-1, 1],
      [5, 1],
    ] as const) {
      const points = truncatedNormalPoints({ mean: [mean], factor: [[1 / sd]] }, 1, 1000);
      const values = points.map(({ values }) => values[0]!);
      const alpha = -mean / sd;
      const lambda = normalDensity(alpha) / (1 - normalCdf(alpha));
      const average = values.reduce((sum, value) => sum + value, 0) / values.length;
      const square = values.reduce((sum, value) => sum + (value - average) ** 2, 0) / values.length;
      expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
      expect(Math.abs(average - (mean + sd * lambda))).toBeLessThan(0.01 * sd);
      expect(Math.abs(square / (sd ** 2 * (1 + alpha * lambda - lambda ** 2)) - 1)).toBeLessThan(0.03);
    }
  });

  it('have the covariances that the precision says, and values that follow lie on their regression', () => {
    const precision = [
      [2, 0.6, 0.5],
      [0.6, 1.5, -0.4],
      [0.5, -0.4, 1],
    ];
    const factor = choleskyFactor(precision)!;
    const mean = [50, 60, 70];
    const points = truncatedNormalPoints({ mean, factor }, 2, 4000);
    const spread = (a: number, b: number) =>
      points.reduce((sum, { values }) => sum + (values[a]! - mean[a]!) * (values[b]! - mean[b]!), 0) /
      points.length;
    const column = (k: number) =>
      solveByFactor(
        factor,
        [0, 1, 2].map((i) => (i === k ? 1 : 0)),
      );
    for (const [a, b] of [
      [1, 1],
      [1, 2],
      [2, 2],
    ] as const)
      expect(Math.abs(spread(a, b) - column(b)[a]!)).toBeLessThan(0.02);
    // source: conditional mean by the precision, −(p₀₁ d₁ + p₀₂ d₂)/p₀₀ (Rue & Held 2005, theorem 2.3).
    for (const { values } of points.slice(0, 20)) {
      const [d1, d2] = [values[1]! - 60, values[2]! - 70];
      expect(values[0]! - 50).toBeCloseTo(-(0.6 * d1 + 0.5 * d2) / 2, 10);
    }
  });
});

/** Groups with a few rows each, in one table. */
function groups(seed: number, count: number, rows: number, variance: number): Table {
  const random = seededRandom(seed);
  const cells: [string[], string[]] = [[], []];
  for (let g = 0; g < count; g++) {
    const effect = random.normal(0, Math.sqrt(variance));
    for (let k = 0; k < rows; k++) {
      cells[0].push(`g${g}`);
      cells[1].push(String(10 + effect + random.normal()));
    }
  }
  return {
    columns: new Map([
      ['genet', cells[0]],
      ['value', cells[1]],
    ]),
  };
}

const model: Model = { response: 'value', fixed: [], random: ['genet'] };

describe('errors with the doubt about variances', () => {
  it('are those of a fine grid over the variance', () => {
    // source: definition of the mixture under a flat prior; the grid takes the likelihood at 600 variances, with the residual
    // at its best value for each. Sixteen points come within 3% where there are a hundred groups; where there are few,
    // the far tail of the likelihood is cut short, and they come within 12%, from below.
    for (const [count, variance, seeds, short, beyond] of [
      [100, 0.05, [1, 3, 6], 0.03, 0.01],
      [100, 0.5, [1, 3, 6], 0.02, 0.01],
      [14, 0.05, [1, 2, 3], 0.12, 0],
      [14, 0.5, [1, 2, 3], 0.12, 0],
    ] as const) {
      for (const seed of seeds) {
        const table = groups(seed, count, count > 50 ? 2 : 3, variance);
        const fitted = fitModel(table, model);
        const effect = [{ term: 'genet', level: 'g3', weight: 1 }];
        const best = fitted.combine(effect).estimate;
        const squared = (at: typeof fitted) => {
          const { estimate, se } = at.combine(effect);
          return se ** 2 + (estimate - best) ** 2;
        };
        const fits = weightedFits(table, model, fitted);
        expect(fits.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
        const told = Math.sqrt(fits.reduce((sum, { chance, fitted: at }) => sum + chance * squared(at), 0));
        let [weights, sum] = [0, 0];
        for (let k = 0; k < 600; k++) {
          const at = fitModel(table, { ...model, held: { genet: 0.01 * (k + 0.5) } });
          const weight = Math.exp(at.result.remlLogLikelihood - fitted.result.remlLogLikelihood);
          weights += weight;
          sum += weight * squared(at);
        }
        const ratio = told / Math.sqrt(sum / weights);
        expect(ratio, `${count} groups, seed ${seed}`).toBeGreaterThan(1 - short);
        expect(ratio, `${count} groups, seed ${seed}`).toBeLessThan(1 + beyond);
      }
    }
  });

  it('find a variance that REML puts at 0 doubtful all the same', () => {
    const table = groups(12, 10, 2, 0);
    const fitted = fitModel(table, model);
    expect(fitted.result.variances[0]!.estimate).toBe(0);
    const fits = weightedFits(table, model, fitted);
    expect(fits.length).toBeGreaterThan(8);
    expect(fits.some(({ fitted: at }) => at.result.variances[0]!.estimate > 0.1)).toBe(true);
  });

  it('take variances as known where notes leave no doubt', () => {
    const table = groups(3, 400, 5, 2);
    const fitted = fitModel(table, model);
    expect(weightedFits(table, model, fitted)).toEqual([{ chance: 1, fitted }]);
  });
});

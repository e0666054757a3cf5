import { describe, expect, it } from 'vitest';
import { fitModel, seededRandom } from '../../src/index.ts';
import { denseReml } from './dense-likelihood.ts';
import { byHand, MODEL, simulated } from './unbalanced-example.ts';

describe('the likelihood and its maximum, against the definition by dense matrices', () => {
  const table = simulated(21, 90);
  const { y, design, v, row } = byHand(table);
  const fitted = fitModel(table, MODEL);
  const { result } = fitted;
  const variances = result.variances.map((variance) => variance.estimate);
  const dense = denseReml(design, v(variances), y);

  it('agree with weights, a far-off covariate, an interaction with it and missing cells', () => {
    expect(result.records).toBe(y.length);
    expect(result.omitted).toBe(90 - y.length);
    // The covariate lies near 2000 unshifted in the dense calculation, which costs it some seven digits.
    expect(Math.abs(result.remlLogLikelihood - dense.logLikelihood)).toBeLessThan(1e-6);
  });

  it('have the fixed effects and standard errors of generalised least squares', () => {
    expect(result.fixed.map(({ term, level }) => `${term} ${level ?? ''}`.trim())).toEqual([
      'intercept',
      'kind b',
      'kind c',
      'x',
      'kind*x b',
      'kind*x c',
    ]);
    result.fixed.forEach(({ estimate, se }, j) => {
      const expectedSe = Math.sqrt(dense.fixedCovariance[j]![j]!);
      expect(Math.abs(estimate - dense.fixed[j]!)).toBeLessThan(1e-5 * expectedSe);
      expect(Math.abs(se / expectedSe - 1)).toBeLessThan(1e-6);
    });
  });

  it('predict effects as variance × Z Py', () => {
    for (const effect of result.effects.filter(({ term }) => term === 'row')) {
      const sum = dense.weighted.reduce(
        (total, value, k) => total + (row[k] === effect.level ? value : 0),
        0,
      );
      expect(Math.abs(effect.estimate - variances[0]! * sum)).toBeLessThan(1e-6);
    }
  });

  it('lie at a summit: no variance moved by 2% does better', () => {
    for (let i = 0; i < 3; i++) {
      for (const factor of [0.98, 1.02]) {
        const moved = variances.map((value, k) => (k === i ? value * factor : value));
        expect(denseReml(design, v(moved), y).logLikelihood).toBeLessThan(dense.logLikelihood);
      }
    }
  });

  it('give standard errors of variances near those of the curvature', () => {
    // Average information lies between observed and expected information; with 83 rows these differ by some per cent.
    const step = 0.01;
    const at = (moves: readonly number[]) =>
      denseReml(design, v(variances.map((value, k) => value * (1 + step * moves[k]!))), y).logLikelihood;
    const unit = (i: number, sign: number) => [0, 1, 2].map((k) => (k === i ? sign : 0));
    for (let i = 0; i < 3; i++) {
      const h = step * variances[i]!;
      const curvature = -(at(unit(i, 1)) - 2 * dense.logLikelihood + at(unit(i, -1))) / (h * h);
      const alone = 1 / Math.sqrt(curvature);
      // The error with the others free is at least that with the others known.
      expect(result.variances[i]!.se! / alone).toBeGreaterThan(0.9);
      expect(result.variances[i]!.se! / alone).toBeLessThan(1.6);
    }
  });

  it('tell the error covariance of any two sums of effects', () => {
    const a = [{ term: 'row', level: 'r1', weight: 1 }];
    const b = [
      { term: 'tree', level: '4', weight: 2 },
      { term: 'kind', level: 'b', weight: 1 },
      { term: 'kind', level: 'a', weight: -1 },
    ];
    const sum = fitted.combine([...a, ...b]).se ** 2;
    const parts = fitted.combine(a).se ** 2 + fitted.combine(b).se ** 2 + 2 * fitted.errorCovariance(a, b);
    expect(Math.abs(sum / parts - 1)).toBeLessThan(1e-9);
    const listed = result.effects.find(({ term, level }) => term === 'row' && level === 'r1')!;
    expect(fitted.combine(a).estimate).toBeCloseTo(listed.estimate, 10);
    expect(fitted.combine(a).se).toBeCloseTo(listed.se, 10);
    expect(() => fitted.combine([{ term: 'row', level: 'r9', weight: 1 }])).toThrow(
      '"row" has no level "r9"',
    );
  });

  it('draw effects jointly with the errors that are listed', () => {
    const random = seededRandom(5);
    const draws = 4000;
    const differences: number[] = [];
    const first = result.effects.findIndex(({ term }) => term === 'tree');
    for (let k = 0; k < draws; k++) {
      const effects = fitted.drawEffects(random);
      differences.push(effects[first]! - effects[first + 1]!);
    }
    const mean = differences.reduce((sum, d) => sum + d, 0) / draws;
    const sd = Math.sqrt(differences.reduce((sum, d) => sum + (d - mean) ** 2, 0) / draws);
    const expected = fitted.combine([
      { term: 'tree', level: result.effects[first]!.level, weight: 1 },
      { term: 'tree', level: result.effects[first + 1]!.level, weight: -1 },
    ]);
    expect(Math.abs(mean - expected.estimate)).toBeLessThan((4 * expected.se) / Math.sqrt(draws));
    expect(Math.abs(sd / expected.se - 1)).toBeLessThan(4 / Math.sqrt(2 * draws));
  });
});

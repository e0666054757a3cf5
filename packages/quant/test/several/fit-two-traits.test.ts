import { describe, expect, it } from 'vitest';
import { fitTable, fitTwoTraits, type TwoTraitFit } from '../../src/index.ts';
import { denseReml } from '../mixed/dense-likelihood.ts';
import { denseTraits, simulatedRows, tablesOf } from './dense-traits.ts';

// source: the likelihood from its definition by dense matrices, and its summit.

const rows = simulatedRows(12, 160);
const tables = tablesOf(rows);

/** The fitted covariance matrix of a term. */
function matrixOf(fit: TwoTraitFit, name: string): number[][] {
  const term = fit.terms.find(({ term: known }) => known === name);
  const [v, w] = [0, 1].map((t) => term?.variances[t]?.value ?? 0);
  const c = term?.covariance.value ?? 0;
  return [
    [v!, c],
    [c, w!],
  ];
}

describe.each([
  ['of unlike models', 0, 1],
  ['of which one lacks a term', 1, 2],
] as const)('two traits %s', (_, i, j) => {
  const fit = fitTwoTraits(tables[i]!, tables[j]!);
  const dense = denseTraits(rows, [i, j]);
  const matrices = ['additive', 'plot', 'residual'].map((name) => matrixOf(fit, name));
  const likelihood = (m: number[][][]) =>
    denseReml(dense.x, dense.v(m[0]!, m[1]!, m[2]!), dense.y).logLikelihood;
  const top = likelihood(matrices);

  it('have the likelihood of the definition', () => {
    expect(fit).toMatchObject({ converged: true });
    expect(Math.abs(fit.remlLogLikelihood - top)).toBeLessThan(1e-6);
  });

  it('lie at its summit: no variance or covariance moved does better', () => {
    for (const [m, k] of [0, 1, 2].flatMap((m) => [0, 1, 3].map((k) => [m, k] as const))) {
      const [a, b] = [k >> 1, k & 1];
      const variance = Math.sqrt(matrices[m]![0]![0]! * matrices[m]![1]![1]!);
      const step = k === 1 ? 0.03 * variance : 0.03 * matrices[m]![a]![a]!;
      if (step === 0) continue;
      for (const sign of [-1, 1]) {
        const moved = matrices.map((matrix, n) =>
          matrix.map((line, r) =>
            line.map((x, c) =>
              n === m && ((r === a && c === b) || (r === b && c === a)) ? x + sign * step : x,
            ),
          ),
        );
        const [[v, c], [, w]] = moved[m] as [[number, number], [number, number]];
        if (c * c >= v * w) continue;
        expect(likelihood(moved)).toBeLessThan(top);
      }
    }
  });

  it('begin with the two single fits', () => {
    const alone = [i, j].map((t) => fitTable(tables[t]!.table, tables[t]!.model));
    const sum = alone[0]!.remlLogLikelihood + alone[1]!.remlLogLikelihood;
    expect(Math.abs(fit.apartLogLikelihood - sum)).toBeLessThan(1e-6);
    expect(fit.remlLogLikelihood).toBeGreaterThan(sum);
  });

  it('agree with the single fits when held apart', () => {
    const apart = fitTwoTraits(tables[i]!, tables[j]!, { apart: ['additive', 'plot', 'residual'] });
    [i, j].forEach((t, own) => {
      for (const { term, estimate, se } of fitTable(tables[t]!.table, tables[t]!.model).variances) {
        const found = apart.terms.find((known) => known.term === term)!;
        expect(found.variances[own]!.value / estimate).toBeCloseTo(1, 5);
        expect(found.variances[own]!.se! / se!).toBeCloseTo(1, 4);
        expect(found.covariance).toEqual({ value: 0, se: null });
      }
    });
  });

  it('give the same numbers, bit for bit, on every run, and in the other order of traits', () => {
    expect(fitTwoTraits(tables[i]!, tables[j]!)).toEqual(fit);
    const turned = fitTwoTraits(tables[j]!, tables[i]!);
    expect(turned.remlLogLikelihood).toBeCloseTo(fit.remlLogLikelihood, 7);
    for (const { term, correlation } of fit.terms) {
      const other = turned.terms.find((known) => known.term === term)!;
      if (correlation) expect(other.correlation!.value).toBeCloseTo(correlation.value, 4);
    }
  });
});

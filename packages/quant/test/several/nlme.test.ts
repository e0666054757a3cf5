import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitTwoTraits, solveSeveral, type TraitTable } from '../../src/index.ts';
import { readTable } from '../mixed/tables.ts';

// source: two scores of pupils in schools (Snijders & Bosker 1999) by R's nlme 3.1.162; see fixtures/school-scores/SOURCE.md.

const folder = new URL('../fixtures/school-scores/', import.meta.url);
const expected = JSON.parse(readFileSync(new URL('expected.json', folder), 'utf8')) as {
  school: number[];
  residual: number[];
  fixed: number[];
  fixedSe: number[];
  effects: Record<string, number[]>;
  logLikelihood: number;
};
const table = readTable(new URL('data.csv', folder).pathname);
const trait = (name: string): TraitTable => ({
  name,
  table,
  model: { response: name, fixed: ['iq'], numeric: ['iq'], random: ['school'] },
  occasion: 'pupil',
});
const traits = [trait('language'), trait('arithmetic')] as const;

describe('two scores of pupils in schools, some missing', () => {
  const fit = fitTwoTraits(...traits);

  it('have the variances, covariances and likelihood of nlme', () => {
    expect(fit.converged).toBe(true);
    expect(fit.warnings).toEqual([]);
    expect(Math.abs(fit.remlLogLikelihood - expected.logLikelihood)).toBeLessThan(1e-4);
    for (const [name, values] of [
      ['school', expected.school],
      ['residual', expected.residual],
    ] as const) {
      const { variances, covariance } = fit.terms.find(({ term }) => term === name)!;
      const found = [variances[0]!.value, covariance.value, variances[1]!.value];
      // nlme's optimiser stops a little before the summit.
      found.forEach((value, i) => {
        expect(Math.abs(value / values[i]! - 1)).toBeLessThan(2e-3);
      });
    }
  });

  it('have its fixed effects, their errors and its effects of schools at its variances', () => {
    const full = ([v, c, w]: number[]) => Float64Array.of(v!, c!, c!, w!);
    const solved = solveSeveral(
      traits,
      new Map([
        ['school', full(expected.school)],
        ['residual', full(expected.residual)],
      ]),
      ['school'],
    );
    expect(Math.abs(solved.remlLogLikelihood - expected.logLikelihood)).toBeLessThan(1e-5);
    ['intercept', 'iq'].forEach((term, i) => {
      const { estimates, covariance } = solved.combine([
        [{ term, level: null, weight: 1 }],
        [{ term, level: null, weight: 1 }],
      ]);
      [0, 1].forEach((t) => {
        const place = 2 * i + t;
        expect(Math.abs(estimates[t]! - expected.fixed[place]!)).toBeLessThan(
          1e-5 * expected.fixedSe[place]!,
        );
        expect(Math.abs(Math.sqrt(covariance[3 * t]!) / expected.fixedSe[place]! - 1)).toBeLessThan(1e-4);
      });
    });
    const { levels, estimates } = solved.sumsOfLevels(['school']);
    for (const [school, values] of Object.entries(expected.effects)) {
      const i = levels.indexOf(school);
      values.forEach((value, t) => {
        expect(Math.abs(estimates[2 * i + t]! - value)).toBeLessThan(1e-5);
      });
    }
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type FittedModel, fitModel, type Model, type WeightedEffect } from '../../src/index.ts';
import { readTable } from './tables.ts';

// source: SOURCE.md in each folder of test/fixtures; expected values from lme4 1.1-31, checked there by a dense calculation.
const CASES = ['sleepstudy', 'penicillin', 'pastes', 'dyestuff', 'cake', 'oats', 'barley'];

interface Expected {
  readonly models: readonly ExpectedModel[];
}

interface ExpectedModel {
  readonly id: string;
  readonly formula: string;
  readonly model: Model;
  /** First level of each class in the reference's own coding. */
  readonly bases: Readonly<Record<string, string>>;
  readonly fixed: readonly { at: Readonly<Record<string, string | null>>; estimate: number; se: number }[];
  readonly variances: readonly { term: string; estimate: number; seObserved: number }[];
  readonly remlLogLikelihood: number;
  readonly effects: readonly (readonly [term: string, level: string, estimate: number, se: number])[];
}

/**
 * A coefficient of the reference in our coding. There it is a difference of cell means over the levels named, all other
 * classes at the reference's base: Π (level - base) multiplied out; each cell mean is the sum of our effects at the cell.
 */
function coefficient(
  model: Model,
  bases: Readonly<Record<string, string>>,
  at: Readonly<Record<string, string | null>>,
) {
  const covariate = Object.keys(at).find((column) => at[column] === null);
  if (covariate) return [{ term: covariate, level: null, weight: 1 }];
  let cells: { levels: Record<string, string>; weight: number }[] = [{ levels: { ...bases }, weight: 1 }];
  for (const [column, level] of Object.entries(at)) {
    cells = cells.flatMap(({ levels, weight }) => [
      { levels: { ...levels, [column]: level! }, weight },
      { levels, weight: -weight },
    ]);
  }
  return cells.flatMap(({ levels, weight }): WeightedEffect[] => [
    { term: 'intercept', level: null, weight },
    ...model.fixed
      .filter((term) => !model.numeric?.includes(term))
      .map((term) => ({
        term,
        level: term
          .split('*')
          .map((column) => levels[column]!)
          .join('×'),
        weight,
      })),
  ]);
}

describe.each(CASES)('%s', (name) => {
  const folder = new URL(`../fixtures/${name}/`, import.meta.url).pathname;
  const expected = JSON.parse(readFileSync(`${folder}expected.json`, 'utf8')) as Expected;
  const table = readTable(`${folder}data.csv`);

  describe.each(expected.models)('$formula', (reference) => {
    const fitted: FittedModel = fitModel(table, reference.model);
    const { result } = fitted;
    // Effects and their errors are held against the spread of a single row, as the reference's own decimals are.
    const spread = Math.sqrt(reference.variances.reduce((sum, { estimate }) => sum + estimate, 0));

    it('converges without warnings', () => {
      expect(result).toMatchObject({ method: 'REML', converged: true, omitted: 0, warnings: [] });
    });

    it('finds the variances within 1e-5 and the likelihood within 1e-6', () => {
      for (const { term, estimate } of reference.variances) {
        const found = result.variances.find((variance) => variance.term === term)!;
        expect(Math.abs(found.estimate / estimate - 1), `variance of ${term}`).toBeLessThan(1e-5);
      }
      expect(result.variances.at(-1)!.term).toBe('residual');
      expect(Math.abs(result.remlLogLikelihood - reference.remlLogLikelihood)).toBeLessThan(1e-6);
    });

    it('gives the variances the standard errors of the observed information', () => {
      // All these designs are balanced; there average, observed and expected information agree at the optimum.
      for (const { term, seObserved } of reference.variances) {
        const found = result.variances.find((variance) => variance.term === term)!;
        expect(Math.abs(found.se! / seObserved - 1), `se of ${term}`).toBeLessThan(1e-3);
      }
    });

    it('has every fixed effect and its standard error', () => {
      expect(result.fixed.length).toBe(reference.fixed.length);
      for (const { at, estimate, se } of reference.fixed) {
        const found = fitted.combine(coefficient(reference.model, reference.bases, at));
        expect(Math.abs(found.estimate - estimate) / spread, JSON.stringify(at)).toBeLessThan(1e-6);
        expect(Math.abs(found.se - se) / spread, `se of ${JSON.stringify(at)}`).toBeLessThan(1e-6);
      }
    });

    it('has every random effect and its standard error', () => {
      const found = new Map(result.effects.map((effect) => [`${effect.term} ${effect.level}`, effect]));
      expect(found.size).toBe(reference.effects.length);
      for (const [term, level, estimate, se] of reference.effects) {
        const effect = found.get(`${term} ${level}`)!;
        expect(Math.abs(effect.estimate - estimate) / spread, `${term} ${level}`).toBeLessThan(1e-6);
        expect(Math.abs(effect.se - se) / spread, `se of ${term} ${level}`).toBeLessThan(1e-6);
        const variance = reference.variances.find((v) => v.term === term)!.estimate;
        expect(Math.abs(effect.reliability! - (1 - se ** 2 / variance))).toBeLessThan(1e-5);
      }
    });
  });
});

import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitTable } from '../../src/index.ts';
import { readTable } from './tables.ts';

// source: University lecture evaluations at ETH Zürich, data set InstEval of lme4 (GPL, so it is read where it lies and not
// copied); expected values by lme4 1.1-31 and a dense solution of the mixed model equations, see expected.json there.
const folder = new URL('../../../../../shared/reference/open/c_insteval/', import.meta.url).pathname;
const given = existsSync(`${folder}data.csv.gz`);

interface Expected {
  readonly models: readonly {
    readonly id: string;
    readonly fixed_effects: readonly { readonly estimate: number; readonly se: number }[];
    readonly variance_components: readonly { readonly group: string; readonly value: number }[];
    readonly reml: { readonly loglik: number };
  }[];
}

describe('InstEval: 73,421 rows, 2,972 students crossed with 1,128 lecturers', () => {
  it.skipIf(!given).each([
    ['insteval_1', ['service'], ['s', 'd', 'dept*service']],
    ['insteval_2', [], ['s', 'd']],
  ] as const)('%s equals lme4 in variances, likelihood, effects and their errors', (id, fixed, random) => {
    const expected = JSON.parse(readFileSync(`${folder}expected.json`, 'utf8')) as Expected;
    const reference = expected.models.find((model) => model.id === id)!;
    const result = fitTable(readTable(`${folder}data.csv.gz`), { response: 'y', fixed, random });
    expect(result).toMatchObject({ records: 73421, omitted: 0, converged: true });
    for (const { group, value } of reference.variance_components) {
      const term = group === 'Residual' ? 'residual' : group.replace(':', '*');
      const found = result.variances.find((variance) => variance.term === term)!;
      expect(Math.abs(found.estimate / value - 1), term).toBeLessThan(1e-4);
    }
    expect(Math.abs(result.remlLogLikelihood - reference.reml.loglik)).toBeLessThan(1e-4);
    reference.fixed_effects.forEach(({ estimate, se }, j) => {
      expect(Math.abs(result.fixed[j]!.estimate - estimate)).toBeLessThan(1e-5);
      expect(Math.abs(result.fixed[j]!.se - se)).toBeLessThan(1e-5);
    });
    const spread = Math.sqrt(reference.variance_components.reduce((sum, { value }) => sum + value, 0));
    for (const term of random) {
      const listed = readTable(`${folder}blups_${id}_${term.replace('*', '-')}.csv`).columns;
      const found = new Map(result.effects.filter((e) => e.term === term).map((e) => [e.level, e]));
      expect(found.size).toBe(listed.get('level')!.length);
      listed.get('level')!.forEach((level, i) => {
        const effect = found.get(level.replace(':', '×'))!;
        expect(Math.abs(effect.estimate - Number(listed.get('estimate')![i])) / spread).toBeLessThan(1e-5);
        expect(Math.abs(effect.se - Number(listed.get('se_pev')![i])) / spread).toBeLessThan(1e-5);
      });
    }
  });
});

import { describe, expect, it } from 'vitest';
import { fitTwoTraits, ModelError, seededRandom, type TraitTable } from '../../src/index.ts';
import { denseReml } from '../mixed/dense-likelihood.ts';

// source: definition of the maximum, with the likelihood by dense matrices.

/** Small unbalanced tables of two traits, some without any variance between groups or any correlation. */
function smallTables(seed: number) {
  const random = seededRandom(seed);
  const groups = 4 + random.integer(8);
  const rows = 14 + random.integer(25);
  const share = random.pick([0, 0.3, 1, 3]);
  const r = random.pick([-1, -0.5, 0, 0.9, 1]);
  const between = Array.from({ length: groups }, () => {
    const x = random.normal();
    return [share * x, share * (r * x + Math.sqrt(1 - r * r) * random.normal())];
  });
  const entries: { t: number; group: number; visit: number; y: number }[] = [];
  for (let k = 0; k < rows; k++) {
    const group = random.integer(groups);
    const common = random.normal();
    for (const t of [0, 1]) {
      if (random.uniform() < 0.25) continue;
      entries.push({ t, group, visit: k, y: between[group]![t]! + 0.7 * common + random.normal() });
    }
  }
  const traits = [0, 1].map((t): TraitTable => {
    const own = entries.filter((entry) => entry.t === t);
    const columns = new Map([
      ['y', own.map(({ y }) => String(y))],
      ['group', own.map(({ group }) => `g${group}`)],
      ['visit', own.map(({ visit }) => String(visit))],
    ]);
    return {
      name: `t${t}`,
      table: { columns },
      model: { response: 'y', fixed: [], random: ['group'] },
      occasion: 'visit',
    };
  });
  const sorted = [...entries].sort((a, b) => a.t - b.t);
  const likelihood = (g: number[][], e: number[][]) =>
    denseReml(
      sorted.map(({ t }) => [1 - t, t]),
      sorted.map((a) =>
        sorted.map(
          (b) => (a.group === b.group ? g[a.t]![b.t]! : 0) + (a.visit === b.visit ? e[a.t]![b.t]! : 0),
        ),
      ),
      sorted.map(({ y }) => y),
    ).logLikelihood;
  return { traits: traits as [TraitTable, TraitTable], likelihood };
}

describe('the search for covariances of two traits, on 200 small tables', () => {
  it('always settles where no variance or correlation moved does better, or refuses the model', () => {
    let fitted = 0;
    for (let seed = 0; seed < 200; seed++) {
      const { traits, likelihood } = smallTables(seed);
      let fit: ReturnType<typeof fitTwoTraits>;
      try {
        fit = fitTwoTraits(...traits);
      } catch (error) {
        expect(error, `seed ${seed}`).toBeInstanceOf(ModelError);
        continue;
      }
      fitted++;
      expect(fit.converged, `seed ${seed}`).toBe(true);
      const values = fit.terms.map(({ variances, correlation }) => [
        variances[0]!.value,
        variances[1]!.value,
        correlation?.value ?? 0,
      ]);
      const matrices = (of: number[][]) =>
        of.map(([v, w, r]) => {
          const c = Math.max(-0.9999, Math.min(0.9999, r!)) * Math.sqrt(v! * w!);
          return [
            [v!, c],
            [c, w!],
          ];
        });
      const at = (of: number[][]) => likelihood(...(matrices(of) as [number[][], number[][]]));
      const top = at(values);
      expect(Math.abs(top - fit.remlLogLikelihood), `seed ${seed}`).toBeLessThan(1e-6);
      for (const m of [0, 1]) {
        for (const k of [0, 1, 2]) {
          for (const sign of [-1, 1]) {
            const moved = values.map((line) => [...line]);
            const total = values[0]![k]! + values[1]![k]!;
            moved[m]![k] =
              k === 2 ? moved[m]![k]! + sign * 0.02 : Math.max(0, moved[m]![k]! + sign * 0.02 * total);
            if (k === 2 && (Math.abs(moved[m]![k]!) > 1 || values[m]![0] === 0 || values[m]![1] === 0))
              continue;
            // Without variance there is no likelihood.
            const value = at(moved);
            if (Number.isNaN(value)) continue;
            expect(value, `seed ${seed}, ${m} ${k} ${sign}`).toBeLessThan(top + 1e-4);
          }
        }
      }
    }
    expect(fitted).toBeGreaterThan(150);
  });
});

import { describe, expect, it } from 'vitest';
import {
  type FitResult,
  fitTable,
  type Model,
  ModelError,
  seededRandom,
  type Table,
} from '../../src/index.ts';

const MODELS: readonly Model[] = [
  { response: 'y', fixed: ['x'], numeric: ['x'], random: ['a', 'b'] },
  { response: 'y', fixed: [], random: ['a', 'b', 'a*b'] },
  { response: 'y', fixed: ['a'], random: ['b', 'a*b'], weights: 'w' },
  { response: 'y', fixed: ['x'], numeric: ['x'], random: ['a', 'x*a', 'b'] },
];

/** A small unbalanced table whose true variances are often zero and otherwise anything from 0.01 to 100. */
function smallTable(seed: number): Table {
  const random = seededRandom(`small table ${seed}`);
  const rows = 8 + random.integer(80);
  const effects = (count: number) => {
    const sd = random.uniform() < 0.3 ? 0 : 10 ** random.normal(0, 0.5);
    return Array.from({ length: count }, () => random.normal(0, sd));
  };
  const a = effects(2 + random.integer(12));
  const b = effects(2 + random.integer(8));
  const columns = new Map<string, string[]>(['a', 'b', 'x', 'w', 'y'].map((name) => [name, []]));
  for (let k = 0; k < rows; k++) {
    const i = random.integer(a.length);
    const j = random.integer(b.length);
    const x = random.normal();
    const cells = { a: `a${i}`, b: `b${j}`, x: x.toFixed(3), w: String(1 + random.integer(3)) };
    const y = a[i]! + b[j]! + 0.5 * x + random.normal();
    for (const [name, cell] of Object.entries({ ...cells, y: y.toFixed(3) })) columns.get(name)!.push(cell);
  }
  return { columns };
}

/** The best gain in likelihood from moving one variance a little, the others held at their estimates. */
function bestGainNearby(table: Table, model: Model, result: FitResult): number {
  const residual = result.variances.at(-1)!.estimate;
  let best = Number.NEGATIVE_INFINITY;
  for (const { term, estimate } of result.variances) {
    const others = Object.fromEntries(result.variances.map((variance) => [variance.term, variance.estimate]));
    const moved = estimate === 0 ? [1e-3 * residual, 0.1 * residual] : [0.9 * estimate, 1.1 * estimate];
    for (const value of moved) {
      const held = fitTable(table, { ...model, held: { ...others, [term]: value } });
      best = Math.max(best, held.remlLogLikelihood - result.remlLogLikelihood);
    }
  }
  return best;
}

describe('the search for the variances, on 400 small unbalanced tables', () => {
  it('always settles, where no variance moved does better, or refuses the model', () => {
    let fitted = 0;
    let atBound = 0;
    let refused = 0;
    for (let seed = 0; seed < 400; seed++) {
      const table = smallTable(seed);
      const model = MODELS[seed % MODELS.length]!;
      let result: FitResult;
      try {
        result = fitTable(table, model);
      } catch (error) {
        if (!(error instanceof ModelError)) throw error;
        refused++;
        continue;
      }
      fitted++;
      if (result.variances.some(({ estimate }) => estimate === 0)) atBound++;
      expect(result.converged, `table ${seed}`).toBe(true);
      expect(bestGainNearby(table, model, result), `table ${seed}`).toBeLessThan(1e-7);
    }
    expect(fitted).toBeGreaterThan(370);
    expect(atBound).toBeGreaterThan(150);
    expect(fitted + refused).toBe(400);
  });
});

import { describe, expect, it } from 'vitest';
import { fitModel } from '../../src/index.ts';
import { MODEL, simulated } from './unbalanced-example.ts';

const table = simulated(7, 90);
const average = fitModel(table, MODEL);
const observed = fitModel(table, MODEL, { observedInformation: true });

describe('the observed information of the variances', () => {
  it('is the bend of the likelihood at its summit, by second differences', () => {
    const variances = observed.result.variances.map(({ estimate }) => estimate);
    const at = (values: readonly number[]) =>
      fitModel(table, { ...MODEL, held: { row: values[0]!, tree: values[1]!, residual: values[2]! } }).result
        .remlLogLikelihood;
    const step = variances.map((variance) => 1e-3 * variance);
    const moved = (i: number, a: number, k: number, b: number) =>
      at(variances.map((v, m) => v + (m === i ? a * step[i]! : 0) + (m === k ? b * step[k]! : 0)));
    const { terms, information } = observed.varianceSlopes();
    expect(terms).toEqual(['row', 'tree', 'residual']);
    for (let i = 0; i < 3; i++) {
      for (let k = 0; k < 3; k++) {
        // source: definition; the error of a central second difference is of the order of the step's square.
        const bend =
          (moved(i, 1, k, 1) - moved(i, 1, k, -1) - moved(i, -1, k, 1) + moved(i, -1, k, -1)) /
          (4 * step[i]! * step[k]!);
        const scale = Math.sqrt(information[4 * i]! * information[4 * k]!);
        expect(Math.abs(information[3 * i + k]! + bend) / scale).toBeLessThan(1e-3);
      }
    }
  });

  it('gives other errors than the average information where the table is unbalanced, and the same estimates', () => {
    observed.result.variances.forEach(({ estimate, se }, i) => {
      const by = average.result.variances[i]!;
      expect(estimate).toBeCloseTo(by.estimate, 12);
      expect(Math.abs(se! / by.se! - 1)).toBeGreaterThan(1e-4);
    });
    observed.result.effects.forEach((effect, i) => {
      expect(effect.estimate).toBeCloseTo(average.result.effects[i]!.estimate, 10);
      expect(effect.se).toBeCloseTo(average.result.effects[i]!.se, 10);
    });
    const sum = [
      { term: 'row', level: 'r1', weight: 1 },
      { term: 'row', level: 'r2', weight: -1 },
    ];
    expect(observed.combine(sum).se).toBeCloseTo(average.combine(sum).se, 10);
  });

  it('leaves held variances alone', () => {
    const held = fitModel(table, { ...MODEL, held: { row: 4 } }, { observedInformation: true });
    expect(held.result.variances[0]).toEqual({ term: 'row', estimate: 4, se: null });
    expect(held.result.variances[1]!.se).toBeGreaterThan(0);
    const all = { ...MODEL, held: { row: 4, tree: 2, residual: 1 } };
    expect(fitModel(table, all, { observedInformation: true }).result).toEqual(fitModel(table, all).result);
  });
});

import { describe, expect, it } from 'vitest';
import { fitModel } from '../../src/index.ts';
import { MODEL, simulated } from './unbalanced-example.ts';

const table = simulated(7, 90);
const at = (row: number, tree: number, residual: number) =>
  fitModel(table, { ...MODEL, held: { row, tree, residual } });

describe('slopes of the likelihood in the variances', () => {
  it('of held variances are those of the likelihood by differences', () => {
    const held = [3, 0.01, 1.4] as const;
    const { terms, score } = at(...held).varianceSlopes();
    expect(terms).toEqual(['row', 'tree', 'residual']);
    held.forEach((variance, i) => {
      const h = 1e-4 * variance;
      const moved = (by: number) =>
        at(...(held.map((v, k) => (k === i ? v + by : v)) as [number, number, number])).result
          .remlLogLikelihood;
      // source: definition; the error of a central difference is of the order of h².
      expect(score[i]! / ((moved(h) - moved(-h)) / (2 * h))).toBeCloseTo(1, 5);
    });
  });

  it('vanish at the summit, where the information is the inverse of the covariance of the variances', () => {
    const fitted = fitModel(table, MODEL);
    const { score, information } = fitted.varianceSlopes();
    const { matrix } = fitted.varianceCovariance!;
    for (let i = 0; i < 3; i++) {
      expect(Math.abs(score[i]! * Math.sqrt(matrix[4 * i]!))).toBeLessThan(1e-4);
      for (let k = 0; k < 3; k++) {
        let product = 0;
        for (let j = 0; j < 3; j++) product += information[3 * i + j]! * matrix[3 * j + k]!;
        expect(product).toBeCloseTo(i === k ? 1 : 0, 8);
      }
    }
  });
});

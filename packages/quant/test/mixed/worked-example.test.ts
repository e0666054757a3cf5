import { describe, expect, it } from 'vitest';
import { derivatives } from '../../src/mixed/derivatives.ts';
import { readDesign } from '../../src/mixed/design.ts';
import { assemble } from '../../src/mixed/equations.ts';
import { evaluate, evaluationRoom } from '../../src/mixed/evaluation.ts';
import { parseTable } from './tables.ts';

// source: the small example of docs/methods/mixed-model.md, worked there by hand.
const design = readDesign(parseTable('y,group\n3,a\n5,a\n4,b\n8,b'), {
  response: 'y',
  fixed: [],
  random: ['group'],
});
const equations = assemble(design);
const at = (variances: readonly number[], rescale: boolean) =>
  evaluate(design, equations, evaluationRoom(equations), Float64Array.from(variances), rescale);

describe('the small example of the documentation', () => {
  const evaluation = at([1, 2], false);
  const slope = derivatives(design, equations, evaluation);

  it('has the solution and residuals worked by hand', () => {
    // The response is held less its mean, 5, so the intercept is 0 here.
    expect([...evaluation.solution]).toEqual([0, -0.5, 0.5]);
    expect([...evaluation.residuals]).toEqual([-1.5, 0.5, -1.5, 2.5]);
    expect(evaluation.errorSquares).toBeCloseTo(11, 12);
    expect(evaluation.penalties[0]).toBeCloseTo(0.5, 12);
  });

  it('has the likelihood, slopes and information worked by hand', () => {
    expect(evaluation.logLikelihood).toBeCloseTo(-0.5 * (3 * Math.log(2 * Math.PI) + Math.log(64) + 6), 12);
    expect(slope.undetermined[0]).toBeCloseTo(1.5, 12);
    expect(slope.score[0]).toBeCloseTo(0, 12);
    expect(slope.score[1]).toBeCloseTo(0.75, 12);
    [0.125, 0.0625, 0.0625, 0.65625].forEach((value, i) => {
      expect(slope.information[i]).toBeCloseTo(value, 12);
    });
  });

  it('has the slopes that the likelihood itself has', () => {
    const step = 1e-5;
    const group =
      (at([1 + step, 2], false).logLikelihood - at([1 - step, 2], false).logLikelihood) / (2 * step);
    const residual =
      (at([1, 2 + step], false).logLikelihood - at([1, 2 - step], false).logLikelihood) / (2 * step);
    expect(Math.abs(slope.score[0]! - group)).toBeLessThan(1e-8);
    expect(Math.abs(slope.score[1]! - residual)).toBeLessThan(1e-8);
  });

  it('is rescaled by y’Py / (n - p) = 2, which no other factor beats', () => {
    const best = at([1, 2], true);
    expect([...best.variances]).toEqual([2, 4]);
    expect(best.logLikelihood).toBeCloseTo(at([2, 4], false).logLikelihood, 12);
    for (const factor of [1.9, 2.1]) {
      expect(at([factor, 2 * factor], false).logLikelihood).toBeLessThan(best.logLikelihood);
    }
  });
});

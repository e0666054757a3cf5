import { type CholeskyFactor, factorise } from '../sparse/cholesky.ts';
import { solve } from '../sparse/solve.ts';
import { quadraticForm } from '../sparse/symmetric.ts';
import type { Design } from './design.ts';
import { type Equations, equationValues } from './equations.ts';
import { residualsOf, weightedProduct } from './sparse-rows.ts';

/** The mixed model equations solved at given variances, and the likelihood of those variances. */
export interface Evaluation {
  /** Variances of the terms in their order, the residual variance last. */
  readonly variances: Float64Array;
  /** Estimates of the fixed columns and predictions of the random effects. */
  readonly solution: Float64Array;
  readonly residuals: Float64Array;
  /** e'Re, and u'K⁻¹u for each term. */
  readonly errorSquares: number;
  readonly penalties: Float64Array;
  readonly logLikelihood: number;
  /** Valid until the next evaluation with the same equations, which uses its room. */
  readonly factor: CholeskyFactor;
}

/** Room that evaluations of the same equations share. */
export interface EvaluationRoom {
  readonly values: Float64Array;
  readonly panels: Float64Array;
}

export function evaluationRoom(equations: Equations): EvaluationRoom {
  return {
    values: new Float64Array(equations.base.length),
    panels: new Float64Array(equations.symbolic.stored),
  };
}

/**
 * Solves the equations at given variances; docs/methods/mixed-model.md, lines (3) to (6).
 *
 * @param rescale multiply all variances by the factor that is best for the likelihood, y'Py / (n - p) (line 7)
 */
export function evaluate(
  design: Design,
  equations: Equations,
  room: EvaluationRoom,
  variances: Float64Array,
  rescale: boolean,
): Evaluation {
  const { terms, w, y, weights, records } = design;
  const p = design.fixed.length;
  const residual = variances[terms.length]!;
  const lambda = terms.map((_, t) => residual / variances[t]!);
  const factor = factorise(equations.symbolic, equationValues(equations, lambda, room.values), room.panels);
  const solution = equations.rhs.slice();
  solve(factor, solution);
  const residuals = residualsOf(w, y, solution);
  const errorSquares = weightedProduct(weights, residuals, residuals);
  const penalties = Float64Array.from(terms, (term) => quadraticForm(term.inverse, solution, term.offset));
  let sum = errorSquares;
  for (let t = 0; t < terms.length; t++) sum += lambda[t]! * penalties[t]!;

  const factorOfScale = rescale ? sum / (residual * (records - p)) : 1;
  const scaled = variances.map((v) => v * factorOfScale);
  const logDeterminants = logDeterminantOfData(design, scaled, factor.logDeterminant);
  const quadratic = sum / (residual * factorOfScale);
  return {
    variances: scaled,
    solution,
    residuals,
    errorSquares,
    penalties,
    logLikelihood: -0.5 * ((records - p) * Math.log(2 * Math.PI) + logDeterminants + quadratic),
    factor,
  };
}

/** log|V| + log|X'V⁻¹X| = log|R⁻¹| + Σ log|G| + log|C|, X unscaled (line 5). */
function logDeterminantOfData(
  design: Design,
  variances: Float64Array,
  logDeterminantOfEquations: number,
): number {
  const { terms, weights, records, fixed, w } = design;
  const logResidual = Math.log(variances[terms.length]!);
  let sum = (records - w.width) * logResidual + logDeterminantOfEquations;
  for (const weight of weights) sum -= Math.log(weight);
  terms.forEach((term, t) => {
    sum += term.size * Math.log(variances[t]!) + term.logDeterminant;
  });
  for (const column of fixed) sum += 2 * Math.log(column.scale);
  return sum;
}

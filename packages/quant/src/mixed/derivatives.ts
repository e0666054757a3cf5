import { selectedInverse } from '../sparse/selected-inverse.ts';
import { solveMany } from '../sparse/solve-many.ts';
import type { Design } from './design.ts';
import { type Equations, ridgeTrace } from './equations.ts';
import type { Evaluation } from './evaluation.ts';
import { residualsOf, transposedProduct, weightedProduct } from './sparse-rows.ts';

/** Slope of the log-likelihood in the variances, residual last. */
export interface Slopes {
  readonly score: Float64Array;
  /** tr(PVₖ), that of the residual last. */
  readonly traces: Float64Array;
  /** For each term λ tr(K⁻¹ C), the part of its effects that the data leave undetermined, between 0 and its size. */
  readonly undetermined: Float64Array;
  /** Entries of C, the inverse of the equations, on the pattern of their factor. */
  readonly inverse: Float64Array;
}

/** The slope with the information. */
export interface Derivatives extends Slopes {
  /** Average information, or the observed one where that was asked for; row by row, (terms + 1) × (terms + 1). */
  readonly information: Float64Array;
}

/**
 * Score and average information of REML (A. R. Gilmour, R. Thompson and B. R. Cullis 1995, Biometrics 51:1440-1450; D. L.
 * Johnson and R. Thompson 1995, Journal of Dairy Science 78:449-456); docs/methods/mixed-model.md, lines (8) to (10).
 *
 * @param evaluation the latest evaluation of these equations
 * @param reuse room for the inverse
 */
export function derivatives(
  design: Design,
  equations: Equations,
  evaluation: Evaluation,
  reuse?: Float64Array,
): Derivatives {
  return {
    ...slopesAt(design, equations, evaluation, reuse),
    information: averageInformation(design, evaluation),
  };
}

/** As `derivatives`, without the information. */
export function slopesAt(
  design: Design,
  equations: Equations,
  evaluation: Evaluation,
  reuse?: Float64Array,
): Slopes {
  const { terms, records } = design;
  const { variances, penalties, errorSquares } = evaluation;
  const inverse = selectedInverse(evaluation.factor, reuse);
  const residual = variances[terms.length]!;
  const score = new Float64Array(terms.length + 1);
  const traces = new Float64Array(terms.length + 1);
  const undetermined = new Float64Array(terms.length);
  let degrees = records - design.fixed.length;
  terms.forEach((term, t) => {
    const variance = variances[t]!;
    undetermined[t] = (residual / variance) * ridgeTrace(equations, t, inverse);
    const determined = term.size - undetermined[t]!;
    degrees -= determined;
    traces[t] = determined / variance;
    score[t] = -0.5 * (traces[t]! - penalties[t]! / variance ** 2);
  });
  traces[terms.length] = degrees / residual;
  score[terms.length] = -0.5 * (degrees / residual - errorSquares / residual ** 2);
  return { score, traces, undetermined, inverse };
}

/** AIⱼₖ = ½ qⱼ'P qₖ with the working variates qₖ = Zₖuₖ/σ²ₖ, and e/σ² for the residual (line 10). */
function averageInformation(design: Design, evaluation: Evaluation): Float64Array {
  const { terms, w, weights } = design;
  const { variances, solution, residuals, factor } = evaluation;
  const count = terms.length + 1;
  const residual = variances[terms.length]!;
  const working = terms.map((term, t) => {
    const { at, value } = term.entries;
    const q = new Float64Array(w.count);
    for (let k = 0; k < w.count; k++) {
      if (at[k]! >= 0) q[k] = (solution[term.offset + at[k]!]! * (value ? value[k]! : 1)) / variances[t]!;
    }
    return q;
  });
  working.push(residuals.map((e) => e / residual));
  const information = new Float64Array(count * count);
  const solved = working.map((q) => transposedProduct(w, weights, q));
  solveMany(factor, solved);
  for (let a = 0; a < count; a++) {
    const left = residualsOf(w, working[a]!, solved[a]!);
    for (let c = 0; c <= a; c++) {
      const entry = (0.5 * weightedProduct(weights, left, working[c]!)) / residual;
      information[a * count + c] = entry;
      information[c * count + a] = entry;
    }
  }
  return information;
}

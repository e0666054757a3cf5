import { entryOffsets } from '../sparse/inverse-entries.ts';
import { solve } from '../sparse/solve.ts';
import type { RemlFit } from './reml.ts';
import { type Shares, sharesProduct, sharesVector } from './shares.ts';

/** Pairs of unknowns up to this many are looked up one by one. */
const MOST_PAIRS = 400;

/**
 * Error covariance of two sums of effects, residual variance × a' C⁻¹ b with C the mixed model equations
 * (docs/methods/mixed-model.md, line 14): by the entries of the selected inverse where it has all that are needed, which
 * is so for effects that meet in a row, else by a solution.
 */
export function errorCovarianceOf(fit: RemlFit): (a: Shares, b: Shares) => number {
  const { factor, variances } = fit.evaluation;
  const { inverse } = fit.derivatives;
  const residual = variances[fit.design.terms.length]!;
  let offsetOf: ((i: number, j: number) => number) | undefined;
  const listed = (a: Shares, b: Shares): number | null => {
    if (a.at.length * b.at.length > MOST_PAIRS) return null;
    offsetOf ??= entryOffsets(factor.symbolic);
    let sum = 0;
    for (let i = 0; i < a.at.length; i++) {
      for (let k = 0; k < b.at.length; k++) {
        const offset = offsetOf(a.at[i]!, b.at[k]!);
        if (offset < 0) return null;
        sum += a.share[i]! * b.share[k]! * inverse[offset]!;
      }
    }
    return sum;
  };
  return (a, b) => {
    const found = listed(a, b);
    if (found !== null) return residual * found;
    const solved = sharesVector(b, factor.symbolic.size);
    solve(factor, solved);
    return residual * sharesProduct(a, solved);
  };
}

import { solve } from '../sparse/solve.ts';
import type { RemlFit } from './reml.ts';
import { type Shares, sharesVector } from './shares.ts';

/**
 * Weights of the table's rows in the estimate of a sum k'b + m'u: R W C⁻¹ [k m]', so that the estimate is Σ wᵣ yᵣ
 * (docs/methods/mixed-model.md, line 16). Rows left out have weight 0.
 */
export function rowWeightsOf(fit: RemlFit, shares: Shares): Float64Array {
  const { w, weights, rows, tableRows } = fit.design;
  const solved = sharesVector(shares, w.width);
  solve(fit.evaluation.factor, solved);
  const found = new Float64Array(tableRows);
  for (let k = 0; k < w.count; k++) {
    let sum = 0;
    for (let e = w.start[k]!; e < w.start[k + 1]!; e++) sum += w.value[e]! * solved[w.column[e]!]!;
    found[rows[k]!] = weights[k]! * sum;
  }
  return found;
}

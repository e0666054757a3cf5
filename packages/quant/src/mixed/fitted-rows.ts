import { entryOffsets } from '../sparse/inverse-entries.ts';
import type { RemlFit } from './reml.ts';

/** What a fit says of each row of the table, in the unit of the response; NaN for rows left out. */
export interface FittedRows {
  /** All fixed and random effects of the row together. */
  readonly fitted: Float64Array;
  /** The fixed effects alone. */
  readonly fixedPart: Float64Array;
  /** Response less `fitted`: the conditional residual. */
  readonly residual: Float64Array;
  /** Residual over its standard deviation; NaN where the row determines its own fit, so that no residual is left. */
  readonly standardised: Float64Array;
}

/** A residual whose variance is below this share of the row's own variance is rounding. */
const LEAST_FREE = 1e-9;

/**
 * Fitted values and studentised conditional residuals: var(ê) = σ² (1/rᵢ − wᵢ' C⁻¹ wᵢ), wᵢ the row's entries of W
 * (S. J. Haslett and S. J. Haslett 2007, International Statistical Review 75:255-271, section 3;
 * docs/methods/mixed-model.md, line 17). All entries of C⁻¹ needed are on the pattern of the equations.
 */
export function fittedRowsOf(fit: RemlFit): FittedRows {
  const { w, weights, rows, tableRows, y, mean, terms, fixed } = fit.design;
  const { solution, variances } = fit.evaluation;
  const { inverse } = fit.derivatives;
  const residualVariance = variances[terms.length]!;
  const offsetOf = entryOffsets(fit.equations.symbolic);
  const empty = () => new Float64Array(tableRows).fill(Number.NaN);
  const found = { fitted: empty(), fixedPart: empty(), residual: empty(), standardised: empty() };
  for (let k = 0; k < w.count; k++) {
    let fixedPart = 0;
    let randomPart = 0;
    let spread = 0;
    for (let e = w.start[k]!; e < w.start[k + 1]!; e++) {
      const i = w.column[e]!;
      const value = w.value[e]!;
      if (i < fixed.length) fixedPart += value * solution[i]!;
      else randomPart += value * solution[i]!;
      spread += value * value * inverse[offsetOf(i, i)]!;
      for (let f = w.start[k]!; f < e; f++) {
        spread += 2 * value * w.value[f]! * inverse[offsetOf(i, w.column[f]!)]!;
      }
    }
    const row = rows[k]!;
    const residual = y[k]! - fixedPart - randomPart;
    const free = 1 / weights[k]! - spread;
    found.fitted[row] = mean + fixedPart + randomPart;
    found.fixedPart[row] = mean + fixedPart;
    found.residual[row] = residual;
    if (free * weights[k]! > LEAST_FREE) {
      found.standardised[row] = residual / Math.sqrt(residualVariance * free);
    }
  }
  return found;
}

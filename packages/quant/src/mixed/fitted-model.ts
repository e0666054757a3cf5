import type { Random } from '../random/seeded-random.ts';
import { solveTransposed } from '../sparse/solve.ts';
import type { Design } from './design.ts';
import { errorCovarianceOf } from './error-covariance.ts';
import { type FittedRows, fittedRowsOf } from './fitted-rows.ts';
import type { FitResult } from './model.ts';
import type { RemlFit } from './reml.ts';
import { rowWeightsOf } from './row-weights.ts';
import { type Shares, sharesLookup, sharesProduct, type WeightedEffect } from './shares.ts';
import {
  type VarianceCovariance,
  type VarianceSlopes,
  varianceCovarianceOf,
  varianceSlopesOf,
} from './variance-covariance.ts';

/** A sum of effects with its standard error, prediction errors of random effects and their covariances included. */
export interface CombinationEstimate {
  readonly estimate: number;
  readonly se: number;
}

/** A fitted model that can be asked for more than its listed effects. */
export interface FittedModel {
  readonly result: FitResult;
  /**
   * Estimate and standard error of a weighted sum of fixed and random effects. Quick where the effects meet in a row of
   * the table (or are kin of one another), else one solution of the equations.
   */
  combine(effects: readonly WeightedEffect[]): CombinationEstimate;
  /** Covariance of the errors of two such sums; at most one solution. */
  errorCovariance(a: readonly WeightedEffect[], b: readonly WeightedEffect[]): number;
  /**
   * Weights w of the table's rows (0 for rows left out) in such a sum: its estimate is Σ wᵣ yᵣ. The random part of the sum
   * is Σ wᵣ (yᵣ − fixed part of row r), and the weights of the rows' fixed parts give its fixed part. One solution.
   */
  rowWeights(effects: readonly WeightedEffect[]): Float64Array;
  /** Fitted values and residuals of the table's rows. */
  fittedRows(): FittedRows;
  /** Covariances of the estimated variances; null where they cannot be told or all are held. */
  readonly varianceCovariance: VarianceCovariance | null;
  /** Slope and average information of the log-likelihood at the variances of this fit, held ones included. */
  varianceSlopes(): VarianceSlopes;
  /**
   * A joint draw of the true random effects given the data and the variances, in the order of `result.effects`.
   * Effects of a variance at its bound are 0.
   */
  drawEffects(random: Random): Float64Array;
}

/**
 * Wraps a fit for questions on sums of effects. For k'b + m'u, b fixed and u random, the error variance of its prediction
 * is [k m]' C [k m] with C the inverse of the mixed model equations (C. R. Henderson 1975, Biometrics 31:423-447);
 * docs/methods/mixed-model.md, line (14).
 *
 * @param whole the design before terms at their bound were left out
 */
export function fittedModel(
  fit: RemlFit,
  whole: Design,
  held: ReadonlyMap<string, number>,
  result: FitResult,
): FittedModel {
  const residual = fit.evaluation.variances[fit.design.terms.length]!;
  const { factor, solution } = fit.evaluation;
  const error = errorCovarianceOf(fit);
  // Names are looked up only where sums are asked for, which most fits are not.
  let found: ReturnType<typeof sharesLookup> | undefined;
  const lookup = (effects: readonly WeightedEffect[]): Shares => {
    found ??= sharesLookup(fit.design, whole);
    return found(effects);
  };
  return {
    result,
    varianceCovariance: varianceCovarianceOf(fit, held),
    varianceSlopes: () => varianceSlopesOf(fit),
    combine(effects) {
      const shares = lookup(effects);
      return {
        estimate: shares.known + sharesProduct(shares, solution),
        se: Math.sqrt(Math.max(0, error(shares, shares))),
      };
    },
    errorCovariance: (a, b) => error(lookup(a), lookup(b)),
    rowWeights: (effects) => rowWeightsOf(fit, lookup(effects)),
    fittedRows: () => fittedRowsOf(fit),
    drawEffects(random) {
      const drawn = Float64Array.from({ length: solution.length }, () => random.normal());
      solveTransposed(factor, drawn);
      const placed = new Map(fit.design.terms.map((term) => [term.name, term]));
      const values: number[] = [];
      for (const { name, levels } of whole.terms) {
        const term = placed.get(name);
        for (let i = 0; i < levels.length; i++) {
          const equation = term ? term.offset + term.equations[i]! : -1;
          values.push(term ? solution[equation]! + Math.sqrt(residual) * drawn[equation]! : 0);
        }
      }
      return Float64Array.from(values);
    },
  };
}

import type { Random } from '../random/seeded-random.ts';
import { solve, solveTransposed } from '../sparse/solve.ts';
import type { Design } from './design.ts';
import type { FitResult } from './model.ts';
import { ModelError } from './model-error.ts';
import type { RemlFit } from './reml.ts';

/** A share of one fixed or random effect in a sum; `level` is null for the intercept and for covariates. */
export interface WeightedEffect {
  readonly term: string;
  readonly level: string | null;
  readonly weight: number;
}

/** A sum of effects with its standard error, prediction errors of random effects and their covariances included. */
export interface CombinationEstimate {
  readonly estimate: number;
  readonly se: number;
}

/** A fitted model that can be asked for more than its listed effects. */
export interface FittedModel {
  readonly result: FitResult;
  /** Estimate and standard error of a weighted sum of fixed and random effects. */
  combine(effects: readonly WeightedEffect[]): CombinationEstimate;
  /** Covariance of the errors of two such sums (two solves; one when they are the same). */
  errorCovariance(a: readonly WeightedEffect[], b: readonly WeightedEffect[]): number;
  /**
   * A joint draw of the true random effects given the data and the variances, in the order of `result.effects`.
   * Effects of a variance at its bound are 0.
   */
  drawEffects(random: Random): Float64Array;
}

/** A sum of effects in the equations: shares of their unknowns, and a known part. */
interface Shares {
  readonly shares: Float64Array;
  readonly known: number;
}

/**
 * Wraps a fit for questions on sums of effects. For k'b + m'u, b fixed and u random, the error variance of its prediction
 * is [k m]' C [k m] with C the inverse of the mixed model equations (C. R. Henderson 1975, Biometrics 31:423-447);
 * docs/methods/mixed-model.md, line (14).
 *
 * @param whole the design before terms at their bound were left out
 */
export function fittedModel(fit: RemlFit, whole: Design, result: FitResult): FittedModel {
  const residual = fit.evaluation.variances[fit.design.terms.length]!;
  const { factor, solution } = fit.evaluation;
  const error = (a: Float64Array, b: Float64Array): number => {
    const solved = b.slice();
    solve(factor, solved);
    return residual * dot(a, solved);
  };
  // Names are looked up only where sums are asked for, which most fits are not.
  let found: ReturnType<typeof equationLookup> | undefined;
  const lookup = (effects: readonly WeightedEffect[]): Shares => {
    found ??= equationLookup(fit.design, whole);
    return found(effects);
  };
  return {
    result,
    combine(effects) {
      const { shares, known } = lookup(effects);
      return { estimate: known + dot(shares, solution), se: Math.sqrt(Math.max(0, error(shares, shares))) };
    },
    errorCovariance: (a, b) => error(lookup(a).shares, lookup(b).shares),
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

function equationLookup(design: Design, whole: Design): (effects: readonly WeightedEffect[]) => Shares {
  const key = (term: string, level: string | null): string => JSON.stringify([term, level]);
  const fixed = new Map(design.fixed.map((column, j) => [key(column.term, column.level), j]));
  const random = new Map<string, number>();
  // Levels that have no equation of their own: bases, aliased columns, and effects of variances at their bound.
  const zero = new Set([...design.bases, ...design.aliased].map((column) => key(column.term, column.level)));
  for (const term of whole.terms) for (const level of term.levels) zero.add(key(term.name, level));
  for (const term of design.terms) {
    term.levels.forEach((level, i) => {
      random.set(key(term.name, level), term.offset + term.equations[i]!);
    });
  }
  return (effects) => {
    const shares = new Float64Array(design.w.width);
    let known = 0;
    for (const { term, level, weight } of effects) {
      const name = key(term, level);
      const column = fixed.get(name);
      const equation = column ?? random.get(name);
      if (column === 0) {
        known += weight * design.mean;
        design.fixed.forEach(({ centre, scale }, j) => {
          shares[j] = shares[j]! - (weight * centre) / scale;
        });
      }
      if (equation !== undefined) {
        const scale = column === undefined ? 1 : design.fixed[column]!.scale;
        shares[equation] = shares[equation]! + weight / scale;
      } else if (!zero.has(name)) {
        throw new ModelError(
          level === null
            ? `the model has no effect "${term}"`
            : `"${term}" has no level "${level}" in this model`,
          'Name a term and a level that the fit lists, or a base level',
        );
      }
    }
    return { shares, known };
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

import type { FitResult } from './model.ts';
import { ModelError } from './model-error.ts';
import type { RemlFit } from './reml.ts';
import { inverseAmong } from './small-systems.ts';

/** Covariance matrix of the estimates of those variances that are neither held nor at their bound. */
export interface VarianceCovariance {
  readonly terms: readonly string[];
  /** Row by row, in the order of `terms`, in the fourth power of the response's unit. */
  readonly matrix: Float64Array;
}

/** How the log-likelihood leans and bends at the variances of a fit; those that are 0 are not among them. */
export interface VarianceSlopes {
  readonly terms: readonly string[];
  /** Its slope in each variance: 0 for a variance that was estimated, any for one that was held. */
  readonly score: Float64Array;
  /** Average information, or the observed one where that was asked for; row by row, in the order of `terms`. */
  readonly information: Float64Array;
}

/** docs/methods/mixed-model.md, lines (8) to (10), at the end of a fit. */
export function varianceSlopesOf(fit: RemlFit): VarianceSlopes {
  const { score, information } = fit.derivatives;
  return {
    terms: [...fit.design.terms.map((term) => term.name), 'residual'],
    score: score.slice(),
    information: information.slice(),
  };
}

/** A ratio of sums of variances; `se` is null where no variance concerned was estimated inside its bounds. */
export interface VarianceRatio {
  readonly value: number;
  readonly se: number | null;
}

/** The inverse of the information (average, or observed where asked for) at the end of a fit; null where it is singular or nothing was free. */
export function varianceCovarianceOf(
  fit: RemlFit,
  held: ReadonlyMap<string, number>,
): VarianceCovariance | null {
  const names = [...fit.design.terms.map((term) => term.name), 'residual'];
  const free = names.map((_, i) => i).filter((i) => !held.has(names[i]!));
  if (free.length === 0) return null;
  const matrix = inverseAmong(fit.derivatives.information, names.length, free);
  return matrix && { terms: free.map((i) => names[i]!), matrix };
}

/**
 * A ratio of sums of variances, a heritability say, with its standard error by the delta method: for r = a/b the slope in a
 * variance is (its count in a − r × its count in b)/b (M. Lynch and B. Walsh 1998, Genetics and Analysis of Quantitative
 * Traits, appendix 1).
 *
 * @throws ModelError for a term that the model does not have
 */
export function ratioOfVariances(
  fitted: { readonly result: FitResult; readonly varianceCovariance: VarianceCovariance | null },
  numerator: readonly string[],
  denominator: readonly string[],
): VarianceRatio {
  const estimates = new Map(fitted.result.variances.map(({ term, estimate }) => [term, estimate]));
  const sum = (terms: readonly string[]) =>
    terms.reduce((total, term) => {
      const estimate = estimates.get(term);
      if (estimate !== undefined) return total + estimate;
      const known = [...estimates.keys()].map((name) => `"${name}"`).join(', ');
      throw new ModelError(`"${term}" has no variance in this model`, `Its variances are ${known}`);
    }, 0);
  const below = sum(denominator);
  const value = sum(numerator) / below;
  const covariance = fitted.varianceCovariance;
  if (!covariance) return { value, se: null };
  const count = (terms: readonly string[], name: string) => terms.filter((term) => term === name).length;
  const slope = covariance.terms.map(
    (name) => (count(numerator, name) - value * count(denominator, name)) / below,
  );
  const concerned = covariance.terms.some((name) => numerator.includes(name) || denominator.includes(name));
  if (!concerned) return { value, se: null };
  let variance = 0;
  slope.forEach((a, i) => {
    slope.forEach((b, k) => {
      variance += a * b * covariance.matrix[i * slope.length + k]!;
    });
  });
  return { value, se: Math.sqrt(Math.max(0, variance)) };
}

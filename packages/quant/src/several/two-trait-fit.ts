/** The covariance of a term, or of the residual, between two traits. */
export interface TwoTraitTerm {
  readonly term: string;
  /** Variance in each trait with its standard error; 0 where it is at its bound, null where the trait has no such term. */
  readonly variances: readonly [TwoTraitEstimate | null, TwoTraitEstimate | null];
  /** 0 where it was held or cannot be told; its standard error is then null. */
  readonly covariance: TwoTraitEstimate;
  /** Null where one of the variances is 0 or missing. */
  readonly correlation: TwoTraitEstimate | null;
  /** In words what was done where the correlation is not simply estimated; null where it is. */
  readonly remark: string | null;
}

/** A value with its standard error, null where it was held, is not told by the rows or lies at its bound. */
export interface TwoTraitEstimate {
  readonly value: number;
  readonly se: number | null;
}

/** Variances and covariances of two traits, in the units of their responses. */
export interface TwoTraitFit {
  readonly traits: readonly [string, string];
  readonly converged: boolean;
  readonly iterations: number;
  readonly remlLogLikelihood: number;
  /** Log-likelihood of the two traits apart, all covariances 0. */
  readonly apartLogLikelihood: number;
  /** Terms in the order of the models, `residual` last. */
  readonly terms: readonly TwoTraitTerm[];
  readonly warnings: readonly string[];
  /** Covariances of the estimates, of parameters that are free and inside their bounds; null where they cannot be told. */
  readonly errors: TwoTraitErrors | null;
}

/** Covariance matrix of the estimates of parameters, row by row. */
export interface TwoTraitErrors {
  /** For each parameter its term and whether it is the variance of the first or second trait, or the covariance. */
  readonly parameters: readonly { readonly term: string; readonly of: 0 | 1 | 'covariance' }[];
  readonly matrix: Float64Array;
}

/**
 * The correlation of two traits in the sum of several terms, additive and genet effects say, with its standard error by the
 * delta method; null where a variance of the sum is 0.
 */
export function correlationOfSum(fit: TwoTraitFit, terms: readonly string[]): TwoTraitEstimate | null {
  const among = fit.terms.filter(({ term }) => terms.includes(term));
  const total = (of: 0 | 1) => among.reduce((sum, { variances }) => sum + (variances[of]?.value ?? 0), 0);
  const [v, w] = [total(0), total(1)];
  if (!(v > 0 && w > 0)) return null;
  const c = among.reduce((sum, { covariance }) => sum + covariance.value, 0);
  const told = among.some(({ correlation }) => correlation?.se !== null && correlation !== null);
  const value = c / Math.sqrt(v * w);
  return { value, se: told ? correlationError(fit.errors!, terms, [v, w], c) : null };
}

/** Standard error of c / √(v w), sums over the named terms, from the errors of their variances and covariances. */
export function correlationError(
  { parameters, matrix }: TwoTraitErrors,
  terms: readonly string[],
  variances: readonly [number, number],
  covariance: number,
): number {
  const root = Math.sqrt(variances[0] * variances[1]);
  const slopes = parameters.map(({ term, of }) => {
    if (!terms.includes(term)) return 0;
    return of === 'covariance' ? 1 / root : (-0.5 * covariance) / (root * variances[of]);
  });
  let sum = 0;
  slopes.forEach((a, i) => {
    slopes.forEach((b, k) => {
      sum += a * b * matrix[i * slopes.length + k]!;
    });
  });
  return Math.sqrt(Math.max(0, sum));
}

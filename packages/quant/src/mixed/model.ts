import type { SparseSymmetric } from '../sparse/symmetric.ts';

/** A table of text cells by column, all columns of the same length. */
export interface Table {
  readonly columns: ReadonlyMap<string, readonly string[]>;
  /** The row in the file of each row here, for messages; unless given, the first is row 2, below a header. */
  readonly rowNumbers?: readonly number[];
}

/** A linear mixed model in words; terms are a column or an interaction `a*b` of columns. */
export interface Model {
  /** Numeric column to be explained. */
  readonly response: string;
  readonly fixed: readonly string[];
  readonly random: readonly string[];
  /** Columns used as numbers; all others are classes. */
  readonly numeric?: readonly string[];
  /** Column of weights: the residual variance of a row is the residual variance divided by its weight. */
  readonly weights?: string;
  /** Variances kept at given values, by term; `residual` among them. */
  readonly held?: Readonly<Record<string, number>>;
  readonly additive?: AdditiveTerm;
}

/**
 * A random term `additive` whose effects have a known covariance structure, given by its inverse.
 *
 * Levels may share an equation (levels with the same effect), and there may be equations without a level.
 */
export interface AdditiveTerm {
  /** Column of the table that names the level of each row. */
  readonly column: string;
  /** Where the levels are listed, for messages; 'the list of levels' unless given. */
  readonly listedIn?: string;
  /** All levels, those without rows included, in the order in which effects are listed. */
  readonly levels: readonly string[];
  /** Equation of each level; level i has equation i unless given. */
  readonly equations?: Int32Array;
  /** Inverse of the covariance of the equations' effects, per unit of variance. */
  readonly inverse: SparseSymmetric;
  /** Log-determinant of that covariance (not of its inverse). */
  readonly logDeterminant: number;
  /** Inbreeding of each level: its own covariance is the variance times 1 + inbreeding. */
  readonly inbreeding: ArrayLike<number>;
}

/**
 * One variance of a fitted model; `se` is null where it was held or lies at its bound. It is by average information, or by
 * the observed one where `FitControl.observedInformation` asks for it.
 */
export interface FittedVariance {
  readonly term: string;
  readonly estimate: number;
  readonly se: number | null;
}

export interface FittedFixed {
  readonly term: string;
  readonly level: string | null;
  readonly estimate: number;
  readonly se: number;
}

/** One random effect; `se` is the square root of its prediction error variance. */
export interface FittedEffect {
  readonly term: string;
  readonly level: string;
  readonly estimate: number;
  readonly se: number;
  readonly reliability: number | null;
}

/** Result of a fit, in the shape that is printed. */
export interface FitResult {
  /** Rows used, and rows left out for a missing cell. */
  readonly records: number;
  readonly omitted: number;
  readonly method: 'REML';
  readonly converged: boolean;
  readonly iterations: number;
  readonly remlLogLikelihood: number;
  readonly fixed: readonly FittedFixed[];
  readonly variances: readonly FittedVariance[];
  readonly effects: readonly FittedEffect[];
  readonly warnings: readonly string[];
}

/** What is told between iterations. */
export interface FitProgress {
  readonly iteration: number;
  readonly logLikelihood: number;
  readonly variances: readonly { readonly term: string; readonly estimate: number }[];
}

export interface FitControl {
  readonly onProgress?: (progress: FitProgress) => void;
  /** Asked once the equations are ordered, and between iterations; true stops the fit with a FitCancelledError. */
  readonly isCancelled?: () => boolean;
  /** Most iterations (100 unless given). */
  readonly maxIterations?: number;
  /**
   * Take the standard errors of variances from the observed information, not from the average information, from which they
   * differ by some percent in unbalanced tables; costs one more solution for each variance. Not taken unless asked for.
   */
  readonly observedInformation?: boolean;
}

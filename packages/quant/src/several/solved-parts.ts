import type { Design } from '../mixed/design.ts';
import type { Shares } from '../mixed/shares.ts';
import type { JointSolution } from './joint-solution.ts';
import type { Layout } from './layout.ts';

/** Estimates of several traits and the covariances of their errors, row by row. */
export interface TraitEstimates {
  readonly estimates: Float64Array;
  readonly covariance: Float64Array;
}

/** What sums of effects are reckoned from. */
export interface SolvedParts {
  readonly layout: Layout;
  readonly joint: JointSolution;
  /** Entries of the inverse of the equations on the pattern of their factor. */
  readonly inverse: Float64Array;
  /** The designs before terms without variance were left out of traits. */
  readonly whole: readonly Design[];
}

/** A sum for each trait that is shared by all levels, with its columns of the inverse. */
export interface CommonPart extends TraitEstimates {
  readonly shares: readonly Shares[];
  readonly solved: readonly Float64Array[];
}

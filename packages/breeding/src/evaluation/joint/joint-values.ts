import type { Scale } from '../scale.ts';

/** A genet's true values on several number lines at once, normal, on the scales of the sums. */
export interface NormalValue {
  readonly mean: Float64Array;
  /** Covariance of the errors, lines × lines, row by row. */
  readonly covariance: Float64Array;
}

/** The estimates, with the doubt about variances and correlations in their errors. */
export interface JointValue extends NormalValue {
  /** What the values are at each of the covariances that may be the true ones, all equally likely; at least one. */
  readonly each: readonly NormalValue[];
}

/** What all notes tell of the true values of any genet on several number lines (traits, coordinates of colours). */
export interface JointValues {
  /** The lines in order. */
  readonly keys: readonly string[];
  readonly scales: readonly Scale[];
  /** In plain words: what these values are, and what could not be told. */
  readonly words: readonly string[];
  /** Any genet; of one without notes and kin, what the garden's spread says. */
  of(genet: string): JointValue;
}

/** How work on several lines tells of its progress and hears that it shall stop. */
export interface JointControl {
  readonly isCancelled?: () => boolean;
  /** Share of the work that is done, and what begins, in words. */
  readonly onProgress?: (share: number, step: string) => void;
}

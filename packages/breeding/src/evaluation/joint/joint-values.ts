import type { Scale } from '../scale.ts';

/** A genet's true values on several number lines at once, on the scales of the sums. */
export interface JointValue {
  readonly mean: Float64Array;
  /** Covariance of the errors, lines × lines, row by row. */
  readonly covariance: Float64Array;
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
  /** Share of the two-trait fits that is done, and the one that begins. */
  readonly onProgress?: (share: number, step: string) => void;
}

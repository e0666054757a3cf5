/**
 * What was told of one genet beside what is so: differences from the average noted genet, in standard deviations of the true
 * values of the noted genets of its garden.
 */
export interface HeldPoint {
  readonly generation: number;
  /** Whether the genet has notes of its own; else its kin alone told on it. */
  readonly noted: boolean;
  readonly estimate: number;
  readonly truth: number;
  /** Half the width of the 80% range. */
  readonly half: number;
  readonly errorVariance: number;
  /** Variance that the error would have without any note. */
  readonly spread: number;
}

import type { InformationSource } from './report.ts';

/** What the evaluation asks of the kinship of the genets. */
export interface Kin {
  /** Kinship within founder groups (2θ) that was taken; null where there are no groups. */
  readonly gamma: number | null;
  inbreeding(genet: string): number;
  /** Relationship of a genet with itself: 1 + inbreeding. */
  own(genet: string): number;
  /** Relationship of any genet with a weighted sum of genets. */
  times(sum: ReadonlyMap<string, number>): (genet: string) => number;
  /** What other genets are to this one. */
  sourcesFor(genet: string): (other: string) => InformationSource;
}

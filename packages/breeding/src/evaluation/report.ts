import type { TraitSort } from '../facts/index.ts';

/** What the estimates of one trait rest on and say, for screens, files and the command. */
export interface EstimatesReport {
  readonly trait: {
    readonly code: string;
    readonly name: string;
    readonly sort: TraitSort;
    readonly unit: string | null;
    readonly wanted: string | null;
  };
  readonly notes: number;
  readonly genets: number;
  readonly years: readonly number[];
  /** In plain words: what was taken into account, what could not be separated and why, what to heed. */
  readonly tookIntoAccount: readonly string[];
  readonly couldNotSeparate: readonly string[];
  readonly heed: readonly string[];
  /** Share of the variation among single notes that lies between genets; null where it can't be told. */
  readonly repeatability: { readonly value: number; readonly se: number | null } | null;
  readonly variances: readonly {
    readonly term: string;
    readonly words: string;
    readonly estimate: number;
    readonly se: number | null;
  }[];
  /** Best first, by the trait's wanted direction (more where it is not said). */
  readonly estimates: readonly GenetEstimate[];
}

export interface GenetEstimate {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly standard: boolean;
  /** In the trait's unit, for an average season, bed and age among the notes; day of the year for dates. */
  readonly estimate: number;
  /** How far it lies above (+) or below (−) the average genet. */
  readonly effect: number;
  /** Standard error of the effect: square root of its prediction error variance. */
  readonly se: number;
  /** Range that holds the truth with a chance of 80%. */
  readonly low: number;
  readonly high: number;
  readonly notes: number;
  readonly years: number;
  readonly plants: number;
  /** Plain mean of its notes, as a foil. */
  readonly mean: number | null;
  readonly reliability: number | null;
}

/** Two genets held against each other. */
export interface PairCompared {
  readonly a: string;
  readonly b: string;
  readonly unit: string | null;
  readonly difference: number;
  readonly se: number;
  readonly low: number;
  readonly high: number;
  /** Chance that a truly has more of the trait than b. */
  readonly chanceAMore: number;
  /** What more notes would tell: standard error of the difference with each further year of notes on both. */
  readonly withMoreYears: readonly { readonly years: number; readonly se: number }[];
}

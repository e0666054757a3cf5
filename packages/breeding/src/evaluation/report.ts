import type { TraitSort } from '../facts/index.ts';

/** A share with its standard error, null where the notes do not give one. */
export interface Share {
  readonly value: number;
  readonly se: number | null;
}

export type ScaleName = 'as noted' | 'square root' | 'logarithm' | 'log-odds';

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
  /** Genets with notes. */
  readonly genets: number;
  readonly years: readonly number[];
  /** In plain words: what was taken into account, what could not be separated and why, what to heed. */
  readonly tookIntoAccount: readonly string[];
  readonly couldNotSeparate: readonly string[];
  readonly heed: readonly string[];
  /** The scale on which the sums were made; all figures here but `variances` are back in the trait's own unit. */
  readonly scale: { readonly name: ScaleName; readonly words: string };
  /** Whether parents, sibs and clones told on a genet, and if not, why; gamma is the kinship within founder groups (2θ). */
  readonly kinship: {
    readonly used: boolean;
    readonly words: readonly string[];
    readonly gamma: number | null;
  };
  /** Share of the variation among single notes that parents hand on; null where kinship can't tell. */
  readonly heritability: Share | null;
  /** Share of the variation among single notes that lies between genets; null where it can't be told. */
  readonly repeatability: Share | null;
  /** Correlation to expect between estimates and true values of the noted genets; null where it can't be told. */
  readonly accuracy: number | null;
  /** In the square of the scale's unit. */
  readonly variances: readonly {
    readonly term: string;
    readonly words: string;
    readonly estimate: number;
    readonly se: number | null;
  }[];
  /** Best first, by the trait's wanted direction (more where it is not said); genets without notes come by their kin. */
  readonly estimates: readonly GenetEstimate[];
}

/**
 * Two standard errors, in the trait's unit: at the best variances, as textbooks and other programs have it; and with the
 * doubt about these variances, which ranges and chances are made of.
 */
interface Errors {
  readonly se: number;
  readonly seInDoubt: number;
}

/** What a genet is worth as a parent: its additive value, in the trait's own unit. */
export interface BreedingValue extends Errors {
  /** How far it lies above (+) or below (−) the average noted genet. */
  readonly effect: number;
  /** Range of the effect that holds the truth with a chance of 80%. */
  readonly low: number;
  readonly high: number;
  readonly reliability: number | null;
}

export interface GenetEstimate extends Errors {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly standard: boolean;
  /** In the trait's unit, for an average season, bed and age among the notes; day of the year for dates. */
  readonly estimate: number;
  /** How far it lies above (+) or below (−) the average noted genet. */
  readonly effect: number;
  /** Range that holds the truth with a chance of 80%; lopsided where the scale is not the noted one. */
  readonly low: number;
  readonly high: number;
  /** As a parent; null where kinship was not used. */
  readonly breeding: BreedingValue | null;
  /** Chance that both genes at a place are copies of one; null where kinship was not used. */
  readonly inbreeding: number | null;
  /** Its own notes; 0 for a genet that only its kin tell on. */
  readonly notes: number;
  readonly years: number;
  readonly plants: number;
  /** How many of its notes lie far from all others, as slips of the pencil do; they count all the same. */
  readonly slips: number;
  /** Plain mean of its notes, as a foil. */
  readonly mean: number | null;
  readonly reliability: number | null;
}

/** Two genets held against each other, in the trait's own unit. */
export interface PairCompared extends Errors {
  readonly a: string;
  readonly b: string;
  readonly unit: string | null;
  readonly difference: number;
  /** Range of the true difference, as wide as the doubt about the variances asks for, like the chance below. */
  readonly low: number;
  readonly high: number;
  /** Chance that a truly has more of the trait than b. */
  readonly chanceAMore: number;
  /** What more notes would tell: both standard errors of the difference with each further year of notes on both. */
  readonly withMoreYears: readonly ({ readonly years: number } & Errors)[];
  /** The same with so many further plants of each, noted as its plants were in its last year. */
  readonly withMorePlants: readonly ({ readonly plants: number } & Errors)[];
}

export type InformationSource =
  | 'own notes'
  | 'clones'
  | 'parents'
  | 'sibs'
  | 'offspring'
  | 'other kin'
  | 'inbreeding'
  | 'others';

/** Where an estimate came from: parts that sum to the effect, on the scale of the sums. */
export interface InformationParts {
  readonly genet: string;
  /** The scale of these figures: the trait's own unit where it is 'as noted'. */
  readonly scale: ScaleName;
  readonly effect: number;
  readonly parts: readonly {
    readonly from: InformationSource;
    readonly words: string;
    readonly notes: number;
    readonly effect: number;
  }[];
}

/** The chance of each genet to be truly among the best k; the chances sum to k. */
export interface BestOf {
  readonly k: number;
  readonly draws: number;
  readonly chances: readonly { readonly id: string; readonly chance: number }[];
}

/** One note beside what the model makes of it, in the scale of the sums; `value` in the trait's own unit. */
export interface NoteResidual {
  readonly note: string;
  readonly genet: string;
  readonly code: string;
  readonly plant: string | null;
  readonly bed: string | null;
  readonly year: number;
  readonly east: number | null;
  readonly north: number | null;
  readonly value: number;
  readonly fitted: number;
  /** Residual over its standard error; null where the note alone determines what the model makes of it. */
  readonly standardised: number | null;
  /** Lies so far off that it should be looked at again. */
  readonly flagged: boolean;
}

/** The model of one trait, for its page. */
export interface TraitModel {
  readonly report: Omit<EstimatesReport, 'estimates'>;
  /** Every source of difference that was thought of: whether it entered, and why or why not. */
  readonly terms: readonly {
    readonly term: string;
    readonly words: string;
    readonly entered: boolean;
    readonly why: string;
  }[];
  readonly residuals: readonly NoteResidual[];
}

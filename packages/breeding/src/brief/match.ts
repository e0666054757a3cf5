import type { Lab, TraitSort } from '../facts/index.ts';

/** Every living genet held against a brief: how likely its true values meet it, and what stands in the way. */
export interface BriefMatch {
  readonly brief: { readonly id: string; readonly code: string; readonly name: string };
  /** The limits as they were read, in the order of each plant's `limits`. */
  readonly limits: readonly LimitRead[];
  readonly traits: readonly MatchedTrait[];
  /** Highest chance to meet all musts first; of equal chances, the larger share of wishes. */
  readonly plants: readonly PlantMatch[];
  /** In plain words: what these chances rest on, what could not be told, and with which note it could. */
  readonly heed: readonly string[];
}

export interface LimitRead {
  readonly trait: string;
  readonly traitName: string;
  readonly must: boolean;
  /** Weight of a wish; null for a must. */
  readonly weight: number | null;
  /** "Height at least 100 cm". */
  readonly words: string;
  /** Why nothing can be said of this limit, with what note would settle it; null where it can. */
  readonly unknown: string | null;
  /** Why every plant or none meets it, so that it is of no use or a slip; null where it tells plants apart. */
  readonly beyond: string | null;
}

/** A trait that the brief names and what its estimates rest on. */
export interface MatchedTrait {
  readonly code: string;
  readonly name: string;
  readonly sort: TraitSort;
  readonly unit: string | null;
  readonly notes: number;
  /** Genets with at least one note. */
  readonly genets: number;
}

/** A genet with living plants. */
export interface PlantMatch {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly standard: boolean;
  /**
   * Chance that its true values meet all musts at once, but for musts whose limit is `unknown`; null where none is left.
   */
  readonly chance: number | null;
  /** Bound on the error of reckoning it, which holds about 99 times in 100; 0 where it is exact. */
  readonly chanceError: number;
  /** Expected share of the wishes' weight that it meets; null where the brief has no wish that can be told. */
  readonly wishes: number | null;
  readonly limits: readonly LimitMatch[];
  /**
   * The must least likely to be met: "Height too small: about 84 cm (70 to 99), wanted at least 100 cm"; empty where each
   * alone has a chance of 90% or more.
   */
  readonly inTheWay: string;
  /** Notes on this genet over all traits of the brief. 0: its chance comes from kin or from the garden's spread alone. */
  readonly notes: number;
}

export interface LimitMatch {
  readonly trait: string;
  readonly must: boolean;
  /** What is likely and what is wanted: "about 84 cm (70 to 99), wanted at least 100 cm". */
  readonly words: string;
  /** Chance that its true value meets this limit alone; null where it cannot be told. */
  readonly chance: number | null;
  /** Likely true value in the trait's unit (day of the year for dates); null for colours and classes. */
  readonly estimate: number | null;
  /** Ends of the 80% range of the true value. */
  readonly low: number | null;
  readonly high: number | null;
  /** Likely true colour, for a colour. */
  readonly colour: Lab | null;
  /** Most likely class, for a classed trait. */
  readonly class: string | null;
  readonly notes: number;
  /** The must that `inTheWay` of the plant tells of. */
  readonly inTheWay: boolean;
}

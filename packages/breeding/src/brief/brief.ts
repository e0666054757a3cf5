import type { Lab, TraitRule } from '../facts/index.ts';

/** What a wanted cultivar has to be, as the records hold it. */
export interface Brief {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly limits: readonly BriefLimit[];
}

/** One limit on one trait; fields that say nothing are null. */
export interface BriefLimit {
  /** Code of the trait. */
  readonly trait: string;
  readonly must: boolean;
  readonly weight: number | null;
  /** In the trait's unit; days of the year for dates. */
  readonly atLeast: number | null;
  readonly atMost: number | null;
  readonly classes: readonly string[] | null;
  readonly colour: Lab | null;
  /** CIEDE2000. */
  readonly colourWithin: number | null;
  /** Weeks by ISO 8601. */
  readonly fromWeek: number | null;
  readonly toWeek: number | null;
}

/** A trait that a brief may name. */
export interface BriefTrait extends TraitRule {
  /** BBCH code of a growth stage. */
  readonly bbch?: number | null;
  /** How many notes of it hold a value. */
  readonly notes: number;
}

/** A brief that cannot be held against any plant, with every fault and what would mend it. */
export class BriefError extends Error {
  readonly remedy: string;

  constructor(problem: string, remedy: string) {
    super(problem);
    this.name = 'BriefError';
    this.remedy = remedy;
  }
}

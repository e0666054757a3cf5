import type { KindName, ProgrammeSettings, Row } from '@keelrow/breeding/facts';
import type { GardenTruth } from './truth/truth.ts';

export interface SimulateOptions {
  /** The same seed gives the same garden, to the byte. */
  readonly seed: number;
  /** Seedlings raised in all, about; 1,500 unless said. The other numbers grow with it. */
  readonly genets?: number;
  /** Seasons, the last of them up to 10 June; 8 unless said. */
  readonly years?: number;
  /** First season; 2019 unless said, so that eight seasons end in 2026. */
  readonly startYear?: number;
}

/** A record of any kind, under its kind's name. */
export type SimulatedRecord = { [K in KindName]: { readonly kind: K; readonly row: Row<K> } }[KindName];

/** A note written anew: `row` replaces the note with the id `replaces`. */
export interface SimulatedCorrection {
  readonly replaces: string;
  readonly kind: 'notes';
  readonly row: Row<'notes'> & { readonly id: string };
}

/** A fact struck out, with the reason. */
export interface SimulatedWithdrawal {
  readonly kind: KindName;
  readonly id: string;
  readonly reason: string;
}

export interface SimulatedGarden {
  /** The day that is today in the garden; nothing lies behind it. */
  readonly today: string;
  readonly settings: ProgrammeSettings;
  /**
   * Every record as first written, kind by kind in the order of the catalogue. Can be gone through again and again;
   * notes are made as they are asked for and take no memory.
   */
  readonly records: Iterable<SimulatedRecord>;
  /** What was done afterwards: apply these once the records are in. */
  readonly corrections: Iterable<SimulatedCorrection>;
  readonly withdrawals: Iterable<SimulatedWithdrawal>;
  /** What no breeder knows. Not to be shown as if it were a record. */
  readonly truth: GardenTruth;
}

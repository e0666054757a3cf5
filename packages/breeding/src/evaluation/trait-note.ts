/** A note as the evaluation sees it: a number on a genet, and what may have coloured it. */
export interface TraitNote {
  /** Id of the note, to trace an estimate back to it. */
  readonly note: string;
  /** The value in the trait's unit; for dates the day of the year. */
  readonly value: number;
  /** Id of the genet that the plant truly is. */
  readonly genet: string;
  /** Id of the plant; null where the note is on the genet as a whole. */
  readonly plant: string | null;
  readonly year: number;
  /** Codes of the site and of the bed in which the plant stood. */
  readonly site: string | null;
  readonly bed: string | null;
  /** Years since the plant came up. */
  readonly age: number | null;
  readonly observer: string | null;
  /** Metres from the bed's corner; null or absent where the place of the plant is not known so well. */
  readonly east?: number | null;
  readonly north?: number | null;
  /** Light and moisture of its place on that day, in the words of the records. */
  readonly light?: string | null;
  readonly moisture?: string | null;
}

/** What one possible source of difference adds to the model of a trait, in the model and in words. */
export interface TermChoice {
  /** The term that enters, with the class of each note; null where none does. */
  readonly term: {
    readonly name: string;
    readonly effects: 'fixed' | 'random';
    readonly classes: readonly string[];
  } | null;
  /** What was taken into account; null where nothing was. */
  readonly took: string | null;
  /** What could not be separated and why, in full sentences. */
  readonly couldNot: readonly string[];
}

export const nothing: TermChoice = { term: null, took: null, couldNot: [] };

export const onlySaying = (...couldNot: string[]): TermChoice => ({ term: null, took: null, couldNot });

/** A class needs as many notes to be told from chance at all. */
export const fewestNotesOfAClass = 3;

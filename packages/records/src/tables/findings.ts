export type FindingCode =
  | 'encoding-guessed'
  | 'mark-in-header-removed'
  | 'single-quotes-removed'
  | 'title-rows'
  | 'header-in-two-rows'
  | 'header-looks-like-data'
  | 'header-missing'
  | 'header-twice'
  | 'header-repeated'
  | 'cell-beyond-header'
  | 'row-too-short'
  | 'several-sheets'
  | 'merged-cells'
  | 'error-cell'
  | 'formula-without-value'
  | 'hidden-rows';

/** A place in a table: row and column as a spreadsheet program counts them, from 1. */
export interface Place {
  readonly row: number;
  readonly column?: number;
}

/** Something noticed that the person should know, but that does not stop the reading. */
export interface Finding {
  readonly code: FindingCode;
  readonly message: string;
  /** How sure the reader is, where it had to guess. */
  readonly confidence?: 'high' | 'low';
  /** How often it was met. */
  readonly count: number;
  /** The first places where it was met, twenty at most. */
  readonly places: readonly Place[];
}

const placesKept = 20;

/** Gathers findings; the same thing met again is counted, not repeated, so that memory stays steady. */
export class FindingLog {
  readonly #found = new Map<string, Finding & { count: number; places: Place[] }>();

  add(code: FindingCode, message: string, place?: Place, confidence?: 'high' | 'low'): void {
    const key = `${code} ${message}`;
    const known = this.#found.get(key);
    if (known) {
      known.count++;
      if (place && known.places.length < placesKept) known.places.push(place);
      return;
    }
    const found = { code, message, count: 1, places: place ? [place] : [] };
    this.#found.set(key, confidence ? { ...found, confidence } : found);
  }

  clear(): void {
    this.#found.clear();
  }

  list(): Finding[] {
    return [...this.#found.values()];
  }
}

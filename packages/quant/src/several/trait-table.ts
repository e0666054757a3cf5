import type { FitProgress, Model, Table } from '../mixed/model.ts';

/** The rows of one trait and the model of that trait alone. */
export interface TraitTable {
  readonly name: string;
  readonly table: Table;
  /** Random terms of the same name are the same term in all traits; the additive term must be the same one in all. */
  readonly model: Model;
  /**
   * Column of the table that names the occasion of a row (one plant in one season, say). Errors of rows of different
   * traits on one occasion are correlated; rows without a name there stand alone. Of several rows of one trait on one
   * occasion the first counts.
   */
  readonly occasion?: string;
  /** Variances of this trait fitted alone, by term, for a search to start from; fitted first unless given. */
  readonly variances?: Readonly<Record<string, number>>;
}

/** What is told while several traits are worked on together. */
export interface SeveralControl {
  readonly onProgress?: (progress: FitProgress) => void;
  /** Asked between steps; true stops with a FitCancelledError. */
  readonly isCancelled?: () => boolean;
  /** Most iterations of a search (100 unless given). */
  readonly maxIterations?: number;
}

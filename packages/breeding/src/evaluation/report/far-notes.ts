import type { Evaluation } from '../evaluation.ts';

/** So many standard deviations away, a note is a slip more likely than chance, skewed counts allowed for. */
const far = 6;

/** How far a note lies from what the model makes of it. */
export interface NoteDistance {
  readonly row: number;
  readonly fitted: number;
  /** Studentised residual; null where the note determines its own fit. */
  readonly standardised: number | null;
  /** The larger of its distances from what is usual and from its own genet, in spreads. */
  readonly distance: number;
  readonly flagged: boolean;
}

/**
 * Distances of all notes, in their order. A note is flagged that lies far from all others of its season, age and person,
 * or from other notes on its plant and genet: mostly slips of the pencil. A genet with a single note takes a slip for its
 * own worth, so the distance from the fixed part counts as well as the studentised residual (Haslett & Haslett 2007, The
 * three basic types of residual for a linear model, International Statistical Review 75:1-24). Spreads are taken from the
 * median of the distances, as slips themselves widen a variance (Hampel 1974, The influence curve and its role in robust
 * estimation, JASA 69:383-393). Nothing is left out of the estimates for it.
 */
export function noteDistances({ notes, fitted, table, model }: Evaluation): NoteDistance[] {
  const rows = fitted.fittedRows();
  const values = table.columns.get(model.response)!.map(Number);
  const usually = inSpreads(values.map((value, row) => value - rows.fixedPart[row]!));
  const own = inSpreads([...rows.standardised]);
  return notes.map((_, row) => {
    const standardised = rows.standardised[row]!;
    const distance = Math.max(usually[row]!, own[row]!);
    return {
      row,
      fitted: rows.fitted[row]!,
      standardised: Number.isNaN(standardised) ? null : standardised,
      distance,
      flagged: distance > far,
    };
  });
}

/** Sizes of deviations in spreads: 1.4826 times their median size is the standard deviation of a normal sample. */
export function inSpreads(deviations: readonly number[]): number[] {
  const sizes = deviations.map((deviation) => (Number.isNaN(deviation) ? 0 : Math.abs(deviation)));
  const spread = 1.4826 * sizes.toSorted((a, b) => a - b)[sizes.length >> 1]!;
  return sizes.map((size) => (spread > 0 ? size / spread : 0));
}

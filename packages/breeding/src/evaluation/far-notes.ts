import type { Evaluation } from './estimate.ts';
import type { TraitNote } from './trait-note.ts';

/** So many standard deviations away, a note is a slip more likely than chance, skewed counts allowed for. */
const far = 6;

/**
 * Notes that lie far from all others of their season, age and person, or from other notes on their plant and genet:
 * mostly slips of the pencil. A genet with a single note takes a slip for its own worth, so the distance from the fixed
 * part counts as well as that from the genet's own. Spreads are taken from the median of the distances, as slips
 * themselves widen a variance (Hampel 1974, The influence curve and its role in robust estimation, JASA 69:383-393).
 * Farthest first; nothing is left out of the estimates for it.
 */
export function farNotes({ notes, chosen, fitted: { result } }: Evaluation): TraitNote[] {
  const key = (term: string, level: string | null) => JSON.stringify([term, level]);
  const values = new Map(
    [...result.fixed, ...result.effects].map(({ term, level, estimate }) => [key(term, level), estimate]),
  );
  // A base level has no column, a variance of 0 no effects: both are 0.
  const sum = (terms: readonly string[], row: number) =>
    terms.reduce((total, term) => total + (values.get(key(term, chosen.columns.get(term)![row]!)) ?? 0), 0);
  const intercept = values.get(key('intercept', null)) ?? 0;
  const fromUsual = notes.map(({ value }, row) => value - intercept - sum(chosen.fixed, row));
  const fromOwn = fromUsual.map((distance, row) => distance - sum(chosen.random, row));
  const [usually, own] = [inSpreads(fromUsual), inSpreads(fromOwn)];
  return notes
    .map((note, row) => ({ note, distance: Math.max(usually[row]!, own[row]!) }))
    .filter(({ distance }) => distance > far)
    .sort((a, b) => b.distance - a.distance)
    .map(({ note }) => note);
}

/** Sizes of deviations in spreads: 1.4826 times their median size is the standard deviation of a normal sample. */
function inSpreads(deviations: readonly number[]): number[] {
  const sizes = deviations.map(Math.abs);
  const spread = 1.4826 * sizes.toSorted((a, b) => a - b)[sizes.length >> 1]!;
  return sizes.map((size) => (spread > 0 ? size / spread : 0));
}

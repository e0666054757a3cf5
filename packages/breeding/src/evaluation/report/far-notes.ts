import { type FittedRows, fitModel, ModelError } from '@keelrow/quant';
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

/** Fits anew without slips, at most; each takes a few more notes of one genet. A large garden takes its time for each. */
const mostFits = (notes: number): number => (notes > 20_000 ? 2 : 8);

/** The ranking and the page of a trait ask for the same. */
const known = new WeakMap<Evaluation, NoteDistance[]>();

/**
 * Distances of all notes, in their order. A note is flagged that lies far from all others of its season, age and person,
 * or from other notes on its plant and genet: mostly slips of the pencil. A genet with a single note takes a slip for its
 * own worth, so the distance from the fixed part counts as well as the studentised residual (Haslett & Haslett 2007, The
 * three basic types of residual for a linear model, International Statistical Review 75:1-24). Spreads are taken from the
 * median of the distances, as slips themselves widen a variance (Hampel 1974, The influence curve and its role in robust
 * estimation, JASA 69:383-393).
 *
 * A slip also draws the fit of its genet away, so that right notes beside it look far off (swamping: Barnett & Lewis 1994,
 * Outliers in Statistical Data, third edition). So the worst note is set aside and the rest judged again without it, until
 * none lies far (stepwise selection: Dempster & Gasko-Green 1981, New tools for residual analysis, Annals of Statistics
 * 9:945-959). Genets hardly draw on one another, so the worst notes of all of them are set aside at once. Nothing is left
 * out of the estimates for it, and `fitted` and `standardised` are of all notes.
 */
export function noteDistances(evaluation: Evaluation): NoteDistance[] {
  const before = known.get(evaluation);
  if (before) return before;
  const found = judgedNotes(evaluation);
  known.set(evaluation, found);
  return found;
}

function judgedNotes(evaluation: Evaluation): NoteDistance[] {
  const rows = evaluation.fitted.fittedRows();
  const { distances, aside } = judged(evaluation, rows);
  return distances.map((distance, row) => {
    const standardised = rows.standardised[row]!;
    return {
      row,
      fitted: rows.fitted[row]!,
      standardised: Number.isNaN(standardised) ? null : standardised,
      distance,
      flagged: aside.has(row) || distance > far,
    };
  });
}

/** The distance of each note without those set aside, and of these as they were when they were set aside. */
function judged(evaluation: Evaluation, all: FittedRows): { distances: number[]; aside: Set<number> } {
  let distances = distancesIn(evaluation, all);
  const aside = new Set<number>();
  for (let fits = 0; fits < mostFits(evaluation.notes.length); fits++) {
    const worst = worstOfEachGenet(evaluation, distances, aside);
    const without = worst.length > 0 ? rowsWithout(evaluation, [...aside, ...worst]) : null;
    if (!without) break;
    for (const row of worst) aside.add(row);
    distances = distancesIn(evaluation, without).map((distance, row) =>
      aside.has(row) ? distances[row]! : distance,
    );
  }
  return { distances, aside };
}

function distancesIn({ table, model }: Evaluation, { fixedPart, standardised }: FittedRows): number[] {
  const values = table.columns.get(model.response)!.map(Number);
  const usually = inSpreads(values.map((value, row) => value - fixedPart[row]!));
  const own = inSpreads([...standardised]);
  return usually.map((distance, row) => Math.max(distance, own[row]!));
}

function worstOfEachGenet(
  { notes }: Evaluation,
  distances: readonly number[],
  aside: ReadonlySet<number>,
): number[] {
  const worst = new Map<string, number>();
  for (const [row, distance] of distances.entries()) {
    if (distance <= far || aside.has(row)) continue;
    const before = worst.get(notes[row]!.genet);
    if (before === undefined || distance > distances[before]!) worst.set(notes[row]!.genet, row);
  }
  return [...worst.values()];
}

/** The rows as fitted without some of them, at the variances of all; null where the rest cannot be fitted. */
function rowsWithout({ table, model, fitted }: Evaluation, aside: readonly number[]): FittedRows | null {
  const out = new Set(aside);
  const values = table.columns.get(model.response)!.map((value, row) => (out.has(row) ? '' : value));
  const held = Object.fromEntries(fitted.result.variances.map(({ term, estimate }) => [term, estimate]));
  try {
    const columns = new Map([...table.columns, [model.response, values]]);
    return fitModel({ ...table, columns }, { ...model, held }).fittedRows();
  } catch (error) {
    if (error instanceof ModelError) return null;
    throw error;
  }
}

/** Sizes of deviations in spreads: 1.4826 times their median size is the standard deviation of a normal sample. */
export function inSpreads(deviations: readonly number[]): number[] {
  const sizes = deviations.map((deviation) => (Number.isNaN(deviation) ? 0 : Math.abs(deviation)));
  const spread = 1.4826 * sizes.toSorted((a, b) => a - b)[sizes.length >> 1]!;
  return sizes.map((size) => (spread > 0 ? size / spread : 0));
}

import { fitModel } from '@keelrow/quant';
import type { Evaluation } from './estimate.ts';
import { tableOf } from './table.ts';
import type { TraitNote } from './trait-note.ts';
import { totalOf } from './value-parts.ts';

/** What is noted beyond what was: further years, or further plants of each. */
export interface Further {
  readonly years?: number;
  readonly plants?: number;
}

/**
 * The standard error of the difference of two genets, on the scale of the sums, if both were noted further, as they were
 * in their last year: the equations solved anew with those notes added and the variances held. Errors of prediction do
 * not depend on the values noted, so the added notes carry the mean. A genet without notes is noted as the other was; null
 * where neither has any.
 */
export function seWithMoreNotes(evaluation: Evaluation, a: string, b: string, more: Further): number | null {
  const { notes, chosen, fitted, model, scale, level } = evaluation;
  const added = [...addedNotes(notes, a, b, more), ...addedNotes(notes, b, a, more)];
  if (added.length === 0) return null;
  const extended = { ...chosen, columns: extendedColumns(evaluation, added) };
  const middle = scale.from(level);
  const all = [...notes, ...added.map(({ like }) => ({ ...like, value: middle }))];
  const held = Object.fromEntries(fitted.result.variances.map(({ term, estimate }) => [term, estimate]));
  const noted = { ...evaluation, notedGenets: new Set([...evaluation.notedGenets, a, b]) };
  return fitModel(tableOf(all, extended, scale), { ...model, held }).combine([
    ...totalOf(noted, a),
    ...totalOf(noted, b, -1),
  ]).se;
}

/** A note to come: as an earlier one, but for the classes that are new in it. */
interface Added {
  readonly like: TraitNote;
  readonly fresh: ReadonlyMap<string, string>;
}

function addedNotes(
  notes: readonly TraitNote[],
  genet: string,
  other: string,
  { years = 0, plants = 0 }: Further,
): Added[] {
  const own = notes.filter((note) => note.genet === genet);
  const seen = own.length > 0 ? own : notes.filter((note) => note.genet === other);
  const last = Math.max(...seen.map(({ year }) => year));
  const pattern = seen.filter(({ year }) => year === last);
  const ofGenet: [string, string][] = [
    ['genet', genet],
    ['additive', genet],
    ...(own.length > 0 ? [] : [['plant', `first of ${genet}`] as [string, string]]),
  ];
  const added: Added[] = [];
  for (let more = 1; more <= years; more++)
    for (const like of pattern)
      added.push({ like, fresh: new Map([...ofGenet, ['season', `further ${more} ${like.site ?? ''}`]]) });
  // A further plant is noted as the one that was noted last.
  const plant = pattern.at(-1)?.plant ?? null;
  for (let more = 1; more <= plants; more++)
    for (const like of pattern.filter((note) => note.plant === plant))
      added.push({ like, fresh: new Map([...ofGenet, ['plant', `further ${more} of ${genet}`]]) });
  return added;
}

function extendedColumns({ notes, chosen }: Evaluation, added: readonly Added[]): Map<string, string[]> {
  const place = new Map(notes.map((note, index) => [note, index]));
  return new Map(
    [...chosen.columns].map(([name, classes]) => [
      name,
      [...classes, ...added.map(({ like, fresh }) => fresh.get(name) ?? classes[place.get(like)!]!)],
    ]),
  );
}

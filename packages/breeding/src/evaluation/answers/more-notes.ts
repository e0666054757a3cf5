import type { Evaluation } from '../evaluation.ts';
import type { TraitNote } from '../trait-note.ts';

/** What is noted beyond what was: further years, or further plants of each. */
export interface Further {
  readonly years?: number;
  readonly plants?: number;
}

/** A note to come: the class that it has in each column of the table. */
export type NoteToCome = (column: string) => string;

/**
 * Notes on a genet as in its last year, in further years or on further plants. A genet without notes is noted as the other
 * was; none where that has none either.
 */
export function notesToCome(
  evaluation: Evaluation,
  genet: string,
  other: string,
  { years = 0, plants = 0 }: Further,
): NoteToCome[] {
  const { notes, chosen, kin, familyOf } = evaluation;
  const rowsOf = (of: string) => [...notes.keys()].filter((row) => notes[row]!.genet === of);
  const own = rowsOf(genet);
  const seen = own.length > 0 ? own : rowsOf(other);
  const noteAt = (row: number): TraitNote => notes[row]!;
  const last = Math.max(...seen.map((row) => noteAt(row).year));
  const pattern = seen.filter((row) => noteAt(row).year === last);
  const ofGenet = new Map([
    ['genet', genet],
    ['additive', genet],
    ...(familyOf ? [['family', familyOf(genet)] as const] : []),
    ...(kin ? [['inbreeding', String(kin.inbreeding(genet))] as const] : []),
    ...(own.length > 0 ? [] : [['plant', `first of ${genet}`] as const]),
  ]);
  const like =
    (row: number, fresh: readonly [string, string]): NoteToCome =>
    (column) =>
      column === fresh[0] ? fresh[1] : (ofGenet.get(column) ?? chosen.columns.get(column)![row]!);
  const come: NoteToCome[] = [];
  for (let more = 1; more <= years; more++)
    for (const row of pattern) come.push(like(row, ['season', `further ${more} ${noteAt(row).site ?? ''}`]));
  // A further plant is noted as the one that was noted last.
  const plant = pattern.length > 0 ? noteAt(pattern.at(-1)!).plant : null;
  for (let more = 1; more <= plants; more++)
    for (const row of pattern.filter((at) => noteAt(at).plant === plant))
      come.push(like(row, ['plant', `further ${more} of ${genet}`]));
  return come;
}

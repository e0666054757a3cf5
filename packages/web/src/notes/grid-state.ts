import type { NoteToStore } from '@keelrow/server/contract';

/**
 * held: typed, but something is wrong with it, so it is not sent; waiting: on its way; sending: handed over, answer
 * not yet here; kept: the server has it; refused: the server says why not. What was typed stays in every case.
 */
export type CellStatus = 'held' | 'waiting' | 'sending' | 'kept' | 'refused';

export interface CellEntered {
  readonly typed: string;
  readonly status: CellStatus;
  readonly problem: string | null;
  /** What is or was sent; none while it is held. */
  readonly note: NoteToStore | null;
  /** The text of the note that this one corrects. */
  readonly insteadOf: string | null;
  /** The stored note that stood here before anything was entered. */
  readonly first: FirstNote | null;
}

export interface FirstNote {
  readonly id: string;
  readonly shown: string;
  readonly note: NoteToStore;
}

export interface GridState {
  readonly cells: ReadonlyMap<string, CellEntered>;
  /** What can be undone: each step with the boxes it changed as they were before. */
  readonly past: readonly (readonly (readonly [string, CellEntered | undefined])[])[];
}

export const emptyGrid: GridState = { cells: new Map(), past: [] };

/** What is typed into one box: a note to send, or text with what is wrong with it. */
export interface Entering {
  readonly key: string;
  readonly typed: string;
  readonly note: NoteToStore | null;
  readonly problem: string | null;
  readonly first: FirstNote | null;
}

export const cellKey = (plant: string, trait: string, year: number): string => `${plant} ${trait} ${year}`;

const longestPast = 200;

/** Enters text into boxes as one step that can be undone as one. */
export function entered(state: GridState, entries: readonly Entering[]): GridState {
  const cells = new Map(state.cells);
  const step: (readonly [string, CellEntered | undefined])[] = [];
  for (const { key, typed, note, problem, first } of entries) {
    const before = cells.get(key);
    step.push([key, before]);
    const standing = standingNote(before, first);
    cells.set(key, {
      typed,
      status: problem === null ? 'waiting' : 'held',
      problem,
      note: note && (standing ? { ...note, replaces: standing.id } : note),
      insteadOf: standing?.shown ?? null,
      first: before?.first ?? first,
    });
  }
  return { cells, past: [...state.past, step].slice(-longestPast) };
}

/** The note that now stands in a box for the server: what was sent or kept, else what stood there first. */
export function standingNote(
  cell: CellEntered | undefined,
  first: FirstNote | null,
): { readonly id: string; readonly shown: string } | null {
  if (!cell) return first;
  if (cell.note && (cell.status === 'kept' || cell.status === 'sending')) {
    return { id: cell.note.id, shown: cell.typed };
  }
  // A note that never arrived replaces what it would have replaced.
  return cell.note?.replaces ? { id: cell.note.replaces, shown: cell.insteadOf ?? '' } : cell.first;
}

export const waitingNotes = (state: GridState): NoteToStore[] =>
  [...state.cells.values()].flatMap(({ status, note }) => (status === 'waiting' && note ? [note] : []));

/** Notes not yet in the records: on their way, held or refused. */
export const notYetKept = (state: GridState): number =>
  [...state.cells.values()].filter(({ status }) => status !== 'kept').length;

/** Marks the boxes of these notes. */
export function marked(
  state: GridState,
  results: ReadonlyMap<string, { readonly status: CellStatus; readonly problem: string | null }>,
): GridState {
  const cells = new Map(state.cells);
  for (const [key, cell] of cells) {
    const result = cell.note && results.get(cell.note.id);
    if (result) cells.set(key, { ...cell, ...result });
  }
  return { ...state, cells };
}

/** A waiting note that corrects a refused one corrects what that one would have corrected. */
export function withoutRefused(state: GridState, refused: readonly NoteToStore[]): GridState {
  const byId = new Map(refused.map((note) => [note.id, note]));
  const cells = new Map(state.cells);
  for (const [key, cell] of cells) {
    const missed = cell.note?.replaces === undefined ? undefined : byId.get(cell.note.replaces);
    if (!cell.note || !missed) continue;
    const { replaces: _never, ...rest } = cell.note;
    cells.set(key, { ...cell, note: missed.replaces ? { ...rest, replaces: missed.replaces } : rest });
  }
  return { ...state, cells };
}

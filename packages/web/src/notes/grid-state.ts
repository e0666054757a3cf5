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
  /** The note that stood here before this was typed, stored or on its way. */
  readonly before: StandingNote | null;
  /** The stored note that stood here before anything was entered. */
  readonly first: FirstNote | null;
}

export interface FirstNote {
  readonly id: string;
  readonly shown: string;
  readonly note: NoteToStore;
}

export interface StandingNote {
  readonly id: string;
  readonly shown: string;
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
  /** The note in words, for lists. */
  readonly words: string;
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
      before: standing && { id: standing.id, shown: standing.shown },
      first: before?.first ?? first,
    });
  }
  return { cells, past: [...state.past, step].slice(-longestPast) };
}

/** The note that now stands in a box: what was entered, on its way or stored; else what stood there first. */
export function standingNote(cell: CellEntered | undefined, first: FirstNote | null): StandingNote | null {
  if (!cell) return first;
  if (!cell.note) return cell.before;
  // A refused note shows nothing to others; what is entered now takes its place on the way.
  return { id: cell.note.id, shown: cell.status === 'refused' ? (cell.before?.shown ?? '') : cell.typed };
}

/** Boxes with text that is wrong in itself and so was not entered. */
export const heldBack = (state: GridState): number =>
  [...state.cells.values()].filter(({ status }) => status === 'held').length;

/** Where a note is on its way, by the queue on the disk. */
export interface NoteOnItsWay {
  readonly state: 'waiting' | 'refused' | 'taken';
  readonly sent: boolean;
  readonly problem: string | null;
}

/**
 * Boxes after the queue has moved on. known: ids of notes that were in the queue before; one that is there no more was
 * taken, or, where it had been refused, thrown away or mended elsewhere.
 */
export function followed(
  state: GridState,
  onTheirWay: ReadonlyMap<string, NoteOnItsWay>,
  known: ReadonlySet<string>,
): GridState {
  const cells = new Map(state.cells);
  for (const [key, cell] of cells) {
    if (!cell.note) continue;
    const now = onTheirWay.get(cell.note.id);
    if (now) cells.set(key, { ...cell, status: statusOf(now), problem: now.problem });
    else if (!known.has(cell.note.id)) continue;
    else if (cell.status === 'refused') cells.delete(key);
    else cells.set(key, { ...cell, status: 'kept', problem: null });
  }
  return { ...state, cells };
}

export const statusOf = ({ state, sent }: NoteOnItsWay): CellStatus =>
  state === 'taken' ? 'kept' : state === 'refused' ? 'refused' : sent ? 'sending' : 'waiting';

/** Boxes whose notes could not be written down: the text stays, with the reason. */
export function notWritten(state: GridState, ids: ReadonlySet<string>, problem: string): GridState {
  const cells = new Map(state.cells);
  for (const [key, cell] of cells) {
    if (cell.note && ids.has(cell.note.id)) cells.set(key, { ...cell, note: null, status: 'held', problem });
  }
  return { ...state, cells };
}

import type { NoteToStore } from '@keelrow/server/contract';
import type { CellEntered, GridState } from './grid-state.ts';

export interface Undone {
  readonly state: GridState;
  /** Stored notes with nothing before them: to be withdrawn. */
  readonly withdraw: readonly string[];
}

/**
 * Takes back the last step. What has not left is put back as it was; what is stored is answered by a fact of its
 * own, since facts are not overwritten: the former value once more, or a withdrawal where there was none.
 * again: makes a note like the given one, with an id of its own.
 */
export function undone(state: GridState, again: (note: NoteToStore) => NoteToStore): Undone {
  const step = state.past.at(-1);
  if (!step) return { state, withdraw: [] };
  const cells = new Map(state.cells);
  const withdraw: string[] = [];
  for (const [key, before] of step) {
    const now = cells.get(key);
    if (now?.note && (now.status === 'kept' || now.status === 'sending')) {
      const former = formerOf(now, before, again);
      if (former) cells.set(key, former);
      else {
        withdraw.push(now.note.id);
        cells.delete(key);
      }
    } else if (before) cells.set(key, before);
    else cells.delete(key);
  }
  return { state: { cells, past: state.past.slice(0, -1) }, withdraw };
}

/** The value before, as a new note that corrects the present one. */
function formerOf(
  now: CellEntered,
  before: CellEntered | undefined,
  again: (note: NoteToStore) => NoteToStore,
): CellEntered | null {
  const formerNote = before?.note ?? now.first?.note;
  if (!now.note || !formerNote) return null;
  return {
    typed: before?.typed ?? now.first?.shown ?? '',
    status: 'waiting',
    problem: null,
    note: { ...again(formerNote), replaces: now.note.id },
    insteadOf: now.typed,
    first: now.first,
  };
}

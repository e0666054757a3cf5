import type { TakenBack } from '../phone/queue.ts';
import type { CellEntered, GridState } from './grid-state.ts';

type Step = GridState['past'][number];

/** Notes of the last step that are on their way or stored, by box: what undo must take back. */
export function toTakeBack(state: GridState): ReadonlyMap<string, string> {
  const notes = (state.past.at(-1) ?? []).flatMap(([key]) => {
    const id = state.cells.get(key)?.note?.id;
    return id === undefined ? [] : [[key, id] as const];
  });
  return new Map(notes);
}

/**
 * The boxes with their last step taken back. What never left was forgotten; what is stored was answered by a fact of
 * its own, since facts are not overwritten: the former value once more, or a withdrawal where there was none.
 * taken: what became of each note that was taken back, by box.
 */
export function undone(state: GridState, step: Step, taken: ReadonlyMap<string, TakenBack>): GridState {
  const cells = new Map(state.cells);
  for (const [key, before] of step) {
    const now = cells.get(key);
    const back = taken.get(key);
    const cell = now && back && !back.forgotten ? answered(now, before, back.answer) : asItWas(before);
    if (cell) cells.set(key, cell);
    else cells.delete(key);
  }
  return { cells, past: state.past.filter((one) => one !== step) };
}

/** A refused note went when another took its place: its text comes back as one to mend. */
const asItWas = (before: CellEntered | undefined): CellEntered | undefined =>
  before?.status === 'refused' ? { ...before, status: 'held', note: null } : before;

/** The former value, on its way as a new note that corrects the present one. */
function answered(now: CellEntered, before: CellEntered | undefined, answer: string): CellEntered | null {
  const former = before?.note ?? now.first?.note;
  if (!former || !now.note) return null;
  const standing = { id: answer, shown: before?.typed ?? now.first?.shown ?? '' };
  if (before && !before.note) return { ...before, before: standing };
  return {
    typed: standing.shown,
    status: 'waiting',
    problem: null,
    note: { ...former, id: answer, replaces: now.note.id },
    before: { id: now.note.id, shown: now.typed },
    first: now.first,
  };
}

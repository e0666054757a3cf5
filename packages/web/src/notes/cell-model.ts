import type { NoteGridRow, NoteToStore, TraitShown } from '@keelrow/server/contract';
import { newId } from '../api/uuid7.ts';
import { noteWords } from '../phone/note-words.ts';
import { type Entry, readEntry, type Setting, showBefore, showEntry } from './entry.ts';
import { type CellEntered, cellKey, type Entering, type FirstNote, type GridState } from './grid-state.ts';

/** One box of the grid, from what the server had and what was entered since. */
export interface CellShown {
  readonly text: string;
  readonly entered: CellEntered | undefined;
  /** Standing notes of this trait and year on the plant, where there are several. */
  readonly several: number;
  readonly before: { readonly year: number; readonly shown: string } | undefined;
}

export function cellShown(
  state: GridState,
  row: NoteGridRow,
  trait: TraitShown,
  year: number,
  units: Setting['units'],
): CellShown {
  const entered = state.cells.get(cellKey(row.plant, trait.code, year));
  const stored = row.cells[trait.code];
  const before = row.before[trait.code];
  return {
    text: entered?.typed ?? (stored ? showEntry(trait, stored, units) : ''),
    entered,
    several: stored && stored.count > 1 ? stored.count : 0,
    before: before && { year: before.year, shown: showBefore(trait, before.shown, units) },
  };
}

/** What typing a text into a box means; null where it says nothing new. */
export function entering(
  state: GridState,
  row: NoteGridRow,
  trait: TraitShown,
  typed: string,
  setting: Setting,
): Entering | null {
  const year = Number(setting.on.slice(0, 4));
  const shown = cellShown(state, row, trait, year, setting.units);
  if (typed.trim() === shown.text) return null;
  const read = readEntry(trait, typed, setting);
  if (read === null) return null;
  const key = cellKey(row.plant, trait.code, year);
  const first = firstNote(row, trait, setting);
  if ('problem' in read) {
    return { key, typed: typed.trim(), note: null, problem: read.problem, first, words: '' };
  }
  const text = showEntry(trait, read, setting.units);
  if (text === shown.text && shown.entered?.status !== 'held' && shown.entered?.status !== 'refused')
    return null;
  return {
    key,
    typed: text,
    note: noteOf(row, trait, setting.on, read),
    problem: null,
    first,
    words: noteWords(row.plantCode, trait, read, setting.units),
  };
}

const noteOf = (row: NoteGridRow, trait: TraitShown, on: string, { state, value }: Entry): NoteToStore => ({
  id: newId(),
  plant: row.plant,
  trait: trait.code,
  on,
  ...(state === 'seen' ? { value } : { state }),
});

function firstNote(row: NoteGridRow, trait: TraitShown, { units }: Setting): FirstNote | null {
  const stored = row.cells[trait.code];
  if (!stored) return null;
  return {
    id: stored.id,
    shown: showEntry(trait, stored, units),
    note: {
      id: stored.id,
      plant: row.plant,
      trait: trait.code,
      on: stored.on,
      state: stored.state,
      value: stored.value,
    },
  };
}

import { dayOfYear, isDate, keptAs, measureOf } from '@keelrow/breeding/facts';
import type { NoteGrid, NoteGridRow, TraitShown } from '@keelrow/server/contract';
import { entering } from '../notes/cell-model.ts';
import { readEntry, type Setting, showEntry } from '../notes/entry.ts';
import { type CellEntered, type Entering, emptyGrid, type GridState } from '../notes/grid-state.ts';
import { type Compared, comparable, slipQuestion } from '../walk/slips/slip.ts';

/** Who walked with the sheet, and when. */
export interface Walked extends Setting {
  /** Code of the person. */
  readonly by: string;
}

/** A box of a sheet: unlike the year's grid, two days of one year are two notes. */
const boxKey = (row: NoteGridRow, trait: TraitShown, on: string): string =>
  `${row.plant} ${trait.code} ${on}`;

const ofDay = (row: NoteGridRow, on: string): NoteGridRow => ({
  ...row,
  cells: Object.fromEntries(Object.entries(row.cells).filter(([, cell]) => cell?.on === on)),
});

/** What stands in a box: what was typed, else the note that is stored of that very day. */
export function boxShown(
  state: GridState,
  row: NoteGridRow,
  trait: TraitShown,
  { on, units }: Setting,
): { readonly text: string; readonly entered: CellEntered | undefined } {
  const typed = state.cells.get(boxKey(row, trait, on));
  const stored = ofDay(row, on).cells[trait.code];
  return { text: typed?.typed ?? (stored ? showEntry(trait, stored, units) : ''), entered: typed };
}

/** What typing a text into a box means; null where it says nothing new. */
export function typedIn(
  state: GridState,
  row: NoteGridRow,
  trait: TraitShown,
  typed: string,
  walked: Walked,
): Entering | null {
  if (typed.trim() === boxShown(state, row, trait, walked).text) return null;
  const key = boxKey(row, trait, walked.on);
  // Once something was typed here, the stored note is known to its box, and typing its value again is a change.
  const under = state.cells.has(key) ? { ...row, cells: {} } : ofDay(row, walked.on);
  const entry = entering(emptyGrid, under, trait, typed, walked);
  if (!entry) return null;
  return { ...entry, key, note: entry.note && { ...entry.note, ...{ by: walked.by } } };
}

/** What is odd about a typed value, as a question; null where nothing is. */
export function oddness(
  state: GridState,
  grid: NoteGrid,
  row: NoteGridRow,
  trait: TraitShown,
  typed: string,
  walked: Walked,
): string | null {
  const read = readEntry(trait, typed, walked);
  const value = read && 'value' in read ? comparable(trait, read.value) : null;
  if (value === null) return null;
  return slipQuestion(
    trait,
    value,
    compared(state, grid, row, trait, walked),
    measureOf(trait.unit, walked.units),
  );
}

/** The plant's earlier season and the other plants of the sheet, from what was fetched and what was typed since. */
function compared(
  state: GridState,
  grid: NoteGrid,
  row: NoteGridRow,
  trait: TraitShown,
  { on }: Walked,
): Compared {
  const now = (of: NoteGridRow): number | null => {
    const typed = state.cells.get(boxKey(of, trait, on))?.note;
    return comparable(trait, typed ? typed.value : of.cells[trait.code]?.value);
  };
  const others = grid.rows.filter(({ plant }) => plant !== row.plant);
  const pairs = others.map((other) => [earlier(other, trait)?.value ?? null, now(other)] as const);
  return {
    before: earlier(row, trait),
    bed: pairs.flatMap(([, value]) => (value === null ? [] : [value])),
    changes: pairs.flatMap(([before, after]) =>
      before === null || after === null ? [] : [[before, after] as const],
    ),
  };
}

/** The server writes an earlier year's value as text, metric. */
function earlier(
  row: NoteGridRow,
  trait: TraitShown,
): { readonly year: number; readonly value: number } | null {
  const before = row.before[trait.code];
  if (!before) return null;
  const { year, shown } = before;
  if (keptAs[trait.sort] === 'date') return isDate(shown) ? { year, value: dayOfYear(shown) } : null;
  const value = Number.parseFloat(shown.replace('−', '-'));
  return keptAs[trait.sort] === 'number' && !Number.isNaN(value) ? { year, value } : null;
}

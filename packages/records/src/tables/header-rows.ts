import { unitNamed } from '@keelrow/breeding/facts';
import { isBlank } from './blank.ts';
import type { MergedArea } from './cell-address.ts';
import { looksLikeData } from './looks-like-data.ts';
import type { RawRow } from './raw-row.ts';

/** The rows that name the columns: one, or two where the upper one stands over several columns (or the lower holds units). */
export interface HeaderRows {
  readonly upper?: RawRow;
  readonly lower: RawRow;
  readonly kind: 'one' | 'two' | 'units';
  /** Rows with words above the header. */
  readonly titles: readonly RawRow[];
}

/** Rows looked at for the header. */
const searched = 40;

/**
 * Finds the header: the first row with at least 60% as many filled cells as the rows of the table usually have. Rows above it
 * are titles.
 * @param sample the first rows of the table, some hundreds
 * @param merged areas of merged cells, where the file says so
 */
export function findHeader(sample: readonly RawRow[], merged: readonly MergedArea[]): HeaderRows | undefined {
  const filled = sample.filter((row) => filledCount(row) > 0);
  if (filled.length === 0) return undefined;
  const usual = median(filled.map(filledCount));
  const most = Math.max(...filled.map(filledCount));
  const enough = Math.max(Math.min(2, most), Math.ceil(0.6 * usual));
  const at = Math.max(
    0,
    filled.slice(0, searched).findIndex((row) => filledCount(row) >= enough),
  );
  const found = filled[at]!;
  const above = filled.slice(0, at);
  const next = filled[at + 1];
  const last = above.at(-1);
  if (next && next.row === found.row + 1) {
    if (isUpperHeader(found, next, merged)) return { upper: found, lower: next, kind: 'two', titles: above };
    if (isUnitsRow(next)) return { upper: found, lower: next, kind: 'units', titles: above };
  }
  if (last && last.row === found.row - 1 && isUpperHeader(last, found, merged)) {
    return { upper: last, lower: found, kind: 'two', titles: above.slice(0, -1) };
  }
  return { lower: found, kind: 'one', titles: above };
}

/** The header where the person said which row it is. */
export function givenHeader(
  sample: readonly RawRow[],
  wanted: number | readonly [number, number],
): HeaderRows | undefined {
  const [first, second] = typeof wanted === 'number' ? [wanted, undefined] : wanted;
  const upper = sample.find((each) => each.row === first);
  const titles = sample.filter((each) => each.row < first && filledCount(each) > 0);
  if (second === undefined) return upper && { lower: upper, kind: 'one', titles };
  const lower = sample.find((each) => each.row === second);
  return upper && lower && { upper, lower, kind: isUnitsRow(lower) ? 'units' : 'two', titles };
}

function filledCount(row: RawRow): number {
  return row.cells.reduce((count, cell) => count + (isBlank(cell.text) ? 0 : 1), 0);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

/**
 * Whether `upper` names groups of columns and `lower` the columns: every blank to the right of an upper name has a lower name
 * beneath it, a name that covers one column only has nothing beneath it, and the lower row holds names, not data. A single
 * name from the first column on is a title.
 */
function isUpperHeader(upper: RawRow, lower: RawRow, merged: readonly MergedArea[]): boolean {
  const width = Math.max(upper.cells.length, lower.cells.length);
  if (filledCount(upper) === 1 && textAt(upper, 0) !== '') return false;
  const above = coveringNames(upper, width, merged);
  let covers = false;
  for (let column = 0; column < width; column++) {
    const name = textAt(upper, column);
    const beneath = textAt(lower, column);
    if (looksLikeData(beneath) || looksLikeData(name)) return false;
    const covered = name === '' && above[column] !== '';
    const group = covered || (name !== '' && above[column + 1] === name && textAt(upper, column + 1) === '');
    if (group ? beneath === '' : name !== '' && beneath !== '') return false;
    covers ||= covered;
  }
  return covers;
}

/** For every column the upper name that stands over it: its own, or the one to its left that was merged or left to fill. */
export function coveringNames(upper: RawRow, width: number, merged: readonly MergedArea[]): string[] {
  const areas = merged.filter((area) => area.top === upper.row && area.right > area.left);
  const names = Array.from({ length: width }, (_, column) => textAt(upper, column));
  if (areas.length > 0) {
    for (const area of areas)
      names.fill(textAt(upper, area.left - 1), area.left - 1, Math.min(area.right, width));
    return names;
  }
  let last = '';
  return names.map((name) => {
    if (name !== '') last = name;
    return last;
  });
}

function isUnitsRow(row: RawRow): boolean {
  const filled = row.cells.filter((cell) => !isBlank(cell.text));
  return (
    filled.length > 0 &&
    filled.every((cell) => unitNamed(cell.text.trim().replace(/^[([](.*)[)\]]$/, '$1')) !== null)
  );
}

export function textAt(row: RawRow, column: number): string {
  return (row.cells[column]?.text ?? '').trim().replace(/\s+/g, ' ');
}

import { serialDate } from '../calendar-date.ts';
import type { Cell } from '../table-types.ts';
import { unescapeText } from './escaped-text.ts';
import type { NumberKind } from './number-formats.ts';

/** A cell as it stands in the sheet. */
export interface StoredCell {
  readonly type: string;
  readonly style: number;
  readonly value: string;
  /** Text within the cell itself. */
  readonly inline: string;
}

export interface CellContext {
  readonly strings: readonly string[];
  readonly kinds: readonly NumberKind[];
  readonly dateSystem: 1900 | 1904;
}

/** The cell's value by its type and number format: ECMA-376 part 1, 18.3.1.4. Errors have no value. */
export function cellValue({ type, style, value, inline }: StoredCell, context: CellContext): Cell {
  switch (type) {
    case 's':
      return { text: context.strings[Number(value)] ?? '' };
    case 'inlineStr':
      return { text: unescapeText(inline) };
    case 'str':
      return { text: unescapeText(value) };
    case 'b':
      return { text: value === '1' || value === 'true' ? 'TRUE' : 'FALSE' };
    case 'd':
      return isoDate(value);
    case 'e':
      return { text: '' };
    default:
      return value.trim() === '' ? { text: '' } : numberCell(value, context.kinds[style], context.dateSystem);
  }
}

function isoDate(value: string): Cell {
  const date = /^(\d{4}-\d\d-\d\d)(T.*)?$/.exec(value)?.[1];
  return date ? { text: value.replace(/T00:00:00(\.0+)?Z?$/, ''), date } : { text: value };
}

function numberCell(value: string, format: NumberKind | undefined, system: 1900 | 1904): Cell {
  const number = Number(value);
  if (!Number.isFinite(number)) return { text: value };
  switch (format?.kind) {
    case 'date':
      return dateCell(number, system);
    case 'time':
      return number < 0 ? { text: String(number), number } : { text: timeOfDay(number), number };
    case 'percent':
      // 15 digits are what spreadsheet programs show; 0.07 × 100 would else be 7.000000000000001.
      return { text: `${Number((number * 100).toPrecision(15))}%`, number };
    case 'padded':
      return {
        text:
          Number.isInteger(number) && number >= 0
            ? String(number).padStart(format.digits, '0')
            : String(number),
        number,
      };
    default:
      return { text: String(number), number };
  }
}

function dateCell(serial: number, system: 1900 | 1904): Cell {
  const seconds = Math.round((serial - Math.floor(serial)) * 86_400);
  const date = serialDate(seconds === 86_400 ? serial + 0.5 : serial, system);
  if (date === undefined) return { text: String(serial), number: serial };
  return { text: seconds % 86_400 === 0 ? date : `${date} ${timeOfDay(seconds / 86_400)}`, date };
}

/** Days as hours, minutes and, where there are any, seconds. */
function timeOfDay(days: number): string {
  const seconds = Math.round(days * 86_400);
  const two = (count: number) => String(count).padStart(2, '0');
  const minutes = `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}`;
  return seconds % 60 === 0 ? minutes : `${minutes}:${two(seconds % 60)}`;
}

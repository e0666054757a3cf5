import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { addFormulaGuard } from './formula-guard.ts';
import { TableError } from './table-error.ts';
import type { Separator } from './table-types.ts';
import { checkedNumber, checkedRow } from './write-checks.ts';
import type { WriteColumn, WriteRows, WriteValue } from './write-types.ts';

export interface CsvWriteOptions {
  /** A comma unless said. */
  readonly separator?: Separator;
  /** Puts a byte-order mark first, by which older spreadsheet programs know UTF-8. */
  readonly byteOrderMark?: boolean;
}

/** Characters gathered before they are handed to the sink. */
const portion = 1 << 16;

/**
 * Writes a table as text: UTF-8, lines ending in CR LF, quotes as in RFC 4180. Texts that a spreadsheet program would run as
 * formulas get an apostrophe, which `openTable` takes off again. The sink is ended when all is written.
 * @param sink any writable stream; it is waited for when it is slow, so memory stays steady
 * @throws TableError for a value that no text file can hold; the sink is then destroyed and what it holds is not whole
 */
export async function writeCsv(
  columns: readonly WriteColumn[],
  rows: WriteRows,
  sink: Writable,
  { separator = ',', byteOrderMark = false }: CsvWriteOptions = {},
): Promise<void> {
  await pipeline(
    Readable.from(csvPortions(columns, rows, separator, byteOrderMark), { objectMode: false }),
    sink,
  );
}

async function* csvPortions(
  columns: readonly WriteColumn[],
  rows: WriteRows,
  separator: Separator,
  byteOrderMark: boolean,
): AsyncGenerator<Buffer> {
  const mustQuote = new RegExp(`["\\r\\n${separator === '|' ? '\\|' : separator}]|^[\\s\\ufeff']|\\s$`, 'u');
  const written = (value: WriteValue | undefined, row: number, column: number) =>
    cellText(value ?? null, mustQuote, { row, column });
  let text = byteOrderMark ? '\ufeff' : '';
  text += lineOf(
    columns.map(({ header }, at) => written(header, 1, at + 1)),
    separator,
  );
  let row = 1;
  for await (const values of rows) {
    row++;
    checkedRow(values, columns, row);
    text += lineOf(
      columns.map((_, at) => written(values[at], row, at + 1)),
      separator,
    );
    if (text.length >= portion) {
      yield Buffer.from(text);
      text = '';
    }
  }
  yield Buffer.from(text);
}

function lineOf(cells: readonly string[], separator: Separator): string {
  // A line with one empty cell would be an empty line.
  return `${cells.length === 1 && cells[0] === '' ? '""' : cells.join(separator)}\r\n`;
}

function cellText(value: WriteValue, mustQuote: RegExp, place: { row: number; column: number }): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(checkedNumber(value, place));
  if (value.includes('\0')) {
    const problem = `The text in row ${place.row}, column ${place.column} holds a zero byte, which no text file can.`;
    throw new TableError('cannot-write', problem, 'Correct that text, or write an .xlsx file.', place.row);
  }
  const guarded = addFormulaGuard(value);
  return mustQuote.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

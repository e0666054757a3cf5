import { serialDate } from './calendar-date.ts';
import { type DateOrder, dateShape } from './date-shape.ts';
import { problem, quoted, type Reading } from './reading.ts';
import type { Cell } from './table-types.ts';

export interface DateReadingOptions {
  /** The order of the column, found by `examineDates` or said by the person. */
  readonly order?: DateOrder | undefined;
  /** Day 0 of the spreadsheet that the cell comes from; a bare number in a spreadsheet is then read as a day. */
  readonly dateSystem?: 1900 | 1904 | undefined;
}

/** Serial days taken for dates: 1954 to 2119. Smaller ones may be years, counts or codes. */
const serials = { first: 20_000, last: 80_000 };

/**
 * Reads a calendar date as people write it: `2027-04-03`, `3.4.2027`, `04/03/27`, `3 Apr 2027`, `April 3, 2027`, `20270403`,
 * month names in English, German and French. Years of two digits are 1969 to 2068. Where day and month could change places,
 * the order decides; without it the cell is refused, never guessed.
 * @param cell a cell, or its text alone
 * @returns `YYYY-MM-DD`
 */
export function readDate(
  cell: Cell | string,
  { order, dateSystem }: DateReadingOptions = {},
): Reading<string> {
  const { text, date, number }: Cell = typeof cell === 'string' ? { text: cell } : cell;
  if (date !== undefined) return { ok: true, value: date };
  if (text.trim() === '') return problem('the cell is empty');
  const shape = dateShape(text);
  if (shape.kind === 'certain') return { ok: true, value: shape.date };
  if (shape.kind === 'by-order') return inOrder(text, shape.dates, order);
  if (shape.kind === 'impossible') return problem(`there is no day ${quoted(text)}`);
  if (shape.kind === 'partial')
    return problem(`${quoted(text)} is not a whole date: day, month and year are needed`);
  if (shape.kind === 'zoned') {
    return problem(
      `${quoted(text)} is a time in some time zone, perhaps of the day before or after: write the date in the garden`,
    );
  }
  if (number !== undefined && dateSystem !== undefined && number >= serials.first && number < serials.last) {
    const day = serialDate(number, dateSystem);
    if (day) return { ok: true, value: day };
  }
  const looksSerial = /^\d{5}(\.\d+)?$/.test(text.trim());
  return problem(
    looksSerial
      ? `${quoted(text)} is the inner number of a spreadsheet's date: give the column a date format and save again`
      : `${quoted(text)} is not a date; write it like 2027-04-03`,
  );
}

function inOrder(
  text: string,
  dates: ReadonlyMap<DateOrder, string>,
  order: DateOrder | undefined,
): Reading<string> {
  const meanings = [...new Set(dates.values())];
  const wanted = order && dates.get(order);
  if (wanted) return { ok: true, value: wanted };
  if (order && !(order === 'ymd' && meanings.length === 1)) {
    return problem(`there is no day ${quoted(text)} if the column's dates are written ${orderWords[order]}`);
  }
  if (meanings.length === 1) return { ok: true, value: meanings[0]! };
  return problem(
    `${quoted(text)} may be ${meanings.join(' or ')}: say in which order the column's dates are written`,
  );
}

const orderWords: Readonly<Record<DateOrder, string>> = {
  ymd: 'year, month, day',
  dmy: 'day, month, year',
  mdy: 'month, day, year',
};

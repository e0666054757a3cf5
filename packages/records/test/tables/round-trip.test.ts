import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Separator, type WriteValue, writeCsv, writeXlsx } from '../../src/tables/index.ts';
import { openBytes, rowsOf, written } from './reading-help.ts';

const columns = [{ header: 'code' }, { header: 'first' }, { header: 'second' }];

/** Texts of all kinds, those that trip up readers among them more often than chance would have it. */
const text = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.string({
    unit: fc.constantFrom(
      '"',
      "'",
      ',',
      ';',
      '\t',
      '|',
      '\r',
      '\n',
      ' ',
      '=',
      '-',
      '+',
      '@',
      '0',
      'a',
      '\ufeff',
      '_x',
      '000D',
      '<',
      '&',
      'é',
      'ï',
    ),
    maxLength: 12,
  }),
  fc.constantFrom(
    '',
    ' ',
    'NA',
    '2027-04-03',
    "'Moon Path'",
    '=1+1',
    '-5',
    '00012',
    'code',
    'first',
    '#N/A',
    'TRUE',
    'sep=;',
  ),
);
const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);
const rows = fc.array(fc.tuple(text, fc.oneof(text, number, fc.constant(null))), { maxLength: 12 });

/** Rows under codes of their own, as every record has one. */
const coded = (pairs: readonly (readonly WriteValue[])[]): WriteValue[][] =>
  pairs.map((pair, at) => [`c${at}`, ...pair]);
const seen = (value: WriteValue) => (value === null ? '' : String(value));

describe('what is written is read back, sign for sign', () => {
  it.each([',', ';', '\t', '|'] as const)(
    'as text separated by %j, found by itself',
    async (separator: Separator) => {
      await fc.assert(
        fc.asyncProperty(rows, fc.boolean(), async (pairs, byteOrderMark) => {
          const values = coded(pairs).map((row) =>
            row.map((value) => (typeof value === 'string' ? value.replaceAll('\0', '') : value)),
          );
          const bytes = await written((sink) =>
            writeCsv(columns, values, sink, { separator, byteOrderMark }),
          );
          const table = await openBytes(bytes);
          expect(table.headers).toEqual(columns.map(({ header }) => header));
          expect((await rowsOf(table)).map(({ cells }) => cells.map((cell) => cell.text))).toEqual(
            values.map((row) => row.map(seen)),
          );
        }),
        { seed: 2, numRuns: 400 },
      );
    },
  );

  it('as a spreadsheet, numbers as numbers', async () => {
    await fc.assert(
      fc.asyncProperty(rows, async (pairs) => {
        const values = coded(pairs);
        const bytes = await written((sink) => writeXlsx([{ name: 'Notes', columns, rows: values }], sink));
        const back = (await rowsOf(await openBytes(bytes))).map(({ cells }) => cells);
        expect(back).toEqual(
          values.map((row) =>
            row.map((value) =>
              typeof value === 'number' ? { text: String(value), number: value } : { text: seen(value) },
            ),
          ),
        );
      }),
      { seed: 3, numRuns: 400 },
    );
  });
});

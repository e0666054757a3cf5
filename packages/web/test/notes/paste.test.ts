import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layBlock, readBlock } from '../../src/notes/paste.ts';

describe('a block pasted from a spreadsheet', () => {
  test('tabs part cells, any line end parts rows, a last line end adds none', () => {
    expect(readBlock('1\t2\r\n3\t4\r\n')).toEqual([
      ['1', '2'],
      ['3', '4'],
    ]);
    expect(readBlock('1\n2\r3')).toEqual([['1'], ['2'], ['3']]);
  });
  test('empty cells and rows keep their place', () => {
    expect(readBlock('\t5\n\n6\t\n')).toEqual([['', '5'], [''], ['6', '']]);
  });
  test('quotes hold tabs, line ends and doubled quotes together', () => {
    expect(readBlock('"a\tb"\t"two\nlines"\n"he said ""no"""\t7')).toEqual([
      ['a\tb', 'two\nlines'],
      ['he said "no"', '7'],
    ]);
  });
  test('a quote that closes nothing is a character like another', () => {
    expect(readBlock('12"\t5\n"half')).toEqual([['12"', '5'], ['"half']]);
  });
  test('what is written by the rule of spreadsheets is read back', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '1', ' ', '\t', '\n', '"', 'é'), maxLength: 6 });
    const quoted = (text: string): string =>
      /[\t\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 3 }), { minLength: 1, maxLength: 4 }),
        (rows) => {
          const text = rows.map((row) => `${row.map(quoted).join('\t')}\n`).join('');
          expect(readBlock(text)).toEqual(rows.map((row) => row.map((one) => one.trim())));
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });
  test('it is laid from the box rightward and downward; what sticks out is counted, empty cells are not', () => {
    const laid = layBlock(
      [
        ['1', '2'],
        ['', '4'],
        ['5', ''],
      ],
      { row: 1, column: 1 },
      { rows: 3, columns: 2 },
    );
    expect(laid.cells).toEqual([{ row: 1, column: 1, text: '1' }]);
    expect(laid.outside).toBe(3);
  });
});

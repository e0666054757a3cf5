import { describe, expect, it } from 'vitest';
import { serialDate } from '../../src/tables/calendar-date.ts';
import { parseArea } from '../../src/tables/cell-address.ts';
import { columnLetters } from '../../src/tables/index.ts';
import { escapeText, unescapeText } from '../../src/tables/xlsx/escaped-text.ts';
import { codeKind } from '../../src/tables/xlsx/number-formats.ts';

// source: ECMA-376, 1st edition, part 4, 3.17.4.1: its examples and limits; 39448 by openpyxl 3.1.5 (from_excel), in both systems
describe('serial days', () => {
  it.each([
    [1, 1900, '1900-01-01'],
    [59, 1900, '1900-02-28'],
    [60, 1900, undefined],
    [61, 1900, '1900-03-01'],
    [3687, 1900, '1910-02-03'],
    [38_749, 1900, '2006-02-01'],
    [39_448, 1900, '2008-01-01'],
    [2_958_465, 1900, '9999-12-31'],
    [2_958_466, 1900, undefined],
    [0, 1900, undefined],
    [0, 1904, '1904-01-01'],
    [37_986, 1904, '2008-01-01'],
    [2_957_003, 1904, '9999-12-31'],
    [2_957_004, 1904, undefined],
    [-1, 1904, undefined],
  ] as const)('%d in the %d system', (serial, system, date) => {
    expect(serialDate(serial, system)).toBe(date);
  });
});

// source: ECMA-376 part 1, 18.8.31 (meaning of the letters), formats as common programs write them
describe('number formats', () => {
  it.each([
    ['yyyy-mm-dd', 'date'],
    ['[$-407]d. mmmm yyyy;@', 'date'],
    ['mmm', 'date'],
    ['dd/mm/yy hh:mm', 'date'],
    ['h:mm AM/PM', 'time'],
    ['[h]:mm:ss', 'time'],
    ['mm:ss.0', 'time'],
    ['0.0%', 'percent'],
    ['General', 'number'],
    ['#,##0.00" days"', 'number'],
    ['0.00E+00', 'number'],
    ['[Red]-0.0', 'number'],
    ['\\d0', 'number'],
    ['0000', 'padded'],
  ])('%s is a %s', (code, kind) => {
    expect(codeKind(code).kind).toBe(kind);
  });
});

it('names and finds cells as spreadsheet programs do', () => {
  expect([1, 26, 27, 702, 703, 16_384].map(columnLetters)).toEqual(['A', 'Z', 'AA', 'ZZ', 'AAA', 'XFD']);
  expect(parseArea('B3:D5')).toEqual({ top: 3, left: 2, bottom: 5, right: 4 });
  expect(parseArea('B0:D5')).toBeUndefined();
});

// source: ECMA-376 part 1, 22.4.2.4 and 22.9.2.19, examples: sign 8 is _x0008_, the text _x0008_ is _x005F_x0008_
it('escapes what XML cannot hold', () => {
  expect(unescapeText('_x0008__x005F_x0008_')).toBe('\b_x0008_');
  expect(escapeText('\b_x0008_')).toBe('_x0008__x005F_x0008_');
  expect(escapeText('_x0041 _x0041\b')).toBe('_x0041 _x005F_x0041_x0008_');
  expect(escapeText('a\rb_x000D_')).toBe('a_x000D_b_x005F_x000D_');
});

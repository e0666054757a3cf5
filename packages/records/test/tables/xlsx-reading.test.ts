import { describe, expect, it } from 'vitest';
import { readDate } from '../../src/tables/index.ts';
import { finding, openFixture, rowsOf, textsOf } from './reading-help.ts';

// source: the values that make-workbooks.py gave to openpyxl, an independent writer of the format
describe.each([
  ['dates-1900.xlsx', 1900],
  ['dates-1904.xlsx', 1904],
] as const)('%s', (file, system) => {
  it('gives dates, times, percents, padded codes and yes or no as the person sees them', async () => {
    const table = await openFixture(file);
    expect(table).toMatchObject({ format: 'xlsx', dateSystem: system, sheet: 'Notes', headerRow: 1 });
    const [first, second] = await rowsOf(table);
    expect(first?.cells).toEqual([
      { text: '0007', number: 7 },
      { text: '2027-04-03', date: '2027-04-03' },
      { text: '2027-04-03 14:30', date: '2027-04-03' },
      { text: '06:05', number: expect.closeTo(6 / 24 + 5 / 1440, 12) },
      { text: '7%', number: 0.07 },
      { text: 'TRUE' },
      { text: '2028-02-29', date: '2028-02-29' },
    ]);
    expect(second?.cells.map(({ text }) => text)).toEqual([
      '0012',
      '2008-01-01',
      '1999-12-31 23:59:59',
      '18:00:30',
      '85.5%',
      'FALSE',
      '1904-01-02',
    ]);
    expect(readDate(second!.cells[2]!)).toEqual({ ok: true, value: '1999-12-31' });
  });
});

describe('merged-headers.xlsx', () => {
  it('joins merged names, fills merged cells downwards and leaves the title out', async () => {
    const table = await openFixture('merged-headers.xlsx');
    expect(table.headers).toEqual([
      'Plant',
      'Height · 2026',
      'Height · 2027',
      'Width · 2026',
      'Width · 2027',
      'Remark',
    ]);
    expect(table.headerRow).toBe(4);
    expect(await textsOf(table)).toEqual([
      ['Moon Path', '80', '85', '60', '70', ''],
      ['Moon Path', '82', '90', '61', '66', ''],
      ['Grey Heron', 'dead', '', '', '', ''],
    ]);
    expect(finding(table, 'title-rows')?.places).toEqual([{ row: 1 }]);
    expect(finding(table, 'merged-cells')?.places).toEqual([{ row: 6, column: 1 }]);
    expect(finding(table, 'hidden-rows')?.places).toEqual([{ row: 6 }]);
  });

  it('lists all sheets, reads the first visible one, and another by its name', async () => {
    const table = await openFixture('merged-headers.xlsx');
    expect(table.sheets).toEqual(['Beds', 'Lists', 'Weather']);
    expect(finding(table, 'several-sheets')?.message).toContain('Weather');
    const weather = await openFixture('merged-headers.xlsx', { sheet: 'weather' });
    expect(weather.headers).toEqual(['date', 'tmin_c']);
    expect(await rowsOf(weather)).toEqual([]);
    await expect(openFixture('merged-headers.xlsx', { sheet: 'Plants' })).rejects.toThrow(
      /no sheet Plants\. Choose one of these: Beds, Lists, Weather/,
    );
  });
});

describe('formulas', () => {
  it('are read by their stored results, errors as missing with their place', async () => {
    const table = await openFixture('resaved.xlsx');
    expect(await textsOf(table)).toEqual([
      ['2027-014', '1.5', '3', '', '', '2027-014-3'],
      ['2027-015', '2', '4', '0.5', '5', 'plain'],
    ]);
    const errors = table.findings.filter(({ code }) => code === 'error-cell');
    expect(errors.map(({ message, places }) => [message.match(/#[A-Z0-9/!]+/)?.[0], places])).toEqual([
      ['#DIV/0!', [{ row: 2, column: 4 }]],
      ['#N/A', [{ row: 2, column: 5 }]],
    ]);
  });

  it('are told of where they have no stored result', async () => {
    const table = await openFixture('calculated.xlsx');
    expect((await textsOf(table))[1]).toEqual(['2027-015', '2', '', '', '5', 'plain']);
    expect(finding(table, 'formula-without-value')?.count).toBe(6);
  });
});

import { strFromU8, unzipSync } from 'fflate';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { writeCsv, writeXlsx } from '../../src/tables/index.ts';
import { openBytes, rowsOf, written } from './reading-help.ts';

const columns = [{ header: 'code' }, { header: 'height (cm)' }, { header: 'remark', width: 40 }];

describe('CSV', () => {
  // source: RFC 4180, section 2 (CRLF, quotes around cells with separators, quotes and line breaks, quotes doubled)
  it('is written as RFC 4180 has it', async () => {
    const rows = [
      ['1', 82.5, 'blue, "pale"'],
      ['2', null, 'two\nlines'],
    ] as const;
    const bytes = await written((sink) => writeCsv(columns, rows, sink));
    expect(bytes.toString()).toBe(
      'code,height (cm),remark\r\n1,82.5,"blue, ""pale"""\r\n2,,"two\nlines"\r\n',
    );
  });

  it('starts with a byte-order mark when asked', async () => {
    const bytes = await written((sink) =>
      writeCsv(columns, [], sink, { byteOrderMark: true, separator: ';' }),
    );
    expect(bytes.toString()).toBe('\ufeffcode;height (cm);remark\r\n');
  });

  // source: OWASP, CSV Injection (leading = + - @, tab and carriage return)
  it('makes formulas harmless and leaves numbers numbers', async () => {
    const rows = ['=1+1', '+cmd', '-x', '@a', '\tb', '-5', "'=c", '- '].map((text) => [text, -5, null]);
    const bytes = await written((sink) => writeCsv(columns, rows, sink));
    const lines = bytes.toString().split('\r\n').slice(1, -1);
    expect(lines.map((line) => line.replace(/,-5,$/, '').replace(/^"(.*)"$/, '$1'))).toEqual([
      "'=1+1",
      "'+cmd",
      "'-x",
      "'@a",
      "'\tb",
      '-5',
      "''=c",
      "'- ",
    ]);
    const back = await rowsOf(await openBytes(bytes));
    expect(back.map(({ cells }) => cells[0]?.text)).toEqual(rows.map(([text]) => text));
  });

  it('refuses what it could not give back', async () => {
    await expect(written((sink) => writeCsv(columns, [['a\0', 1, null]], sink))).rejects.toThrow(
      /row 2, column 1 holds a zero byte/,
    );
    await expect(written((sink) => writeCsv(columns, [['a', Number.NaN, null]], sink))).rejects.toThrow(
      /Row 2, column 2/,
    );
    await expect(written((sink) => writeCsv(columns, [['a', 1, null, 'lost']], sink))).rejects.toThrow(
      /4 values.*3 columns/,
    );
  });

  it('passes on the failure of the rows, and ends the sink', async () => {
    async function* failing() {
      yield ['1', 2, null];
      throw new Error('store closed');
    }
    await expect(written((sink) => writeCsv(columns, failing(), sink))).rejects.toThrow('store closed');
  });
});

describe('spreadsheets', () => {
  const sheets = [
    {
      name: 'Notes',
      columns,
      rows: [
        ['2027-014', 82.5, '=1+1'],
        ['007', null, ' <&>"\r\n\u0001'],
      ] as const,
    },
    { name: 'Plants & beds', columns: [{ header: 'code' }], rows: [] },
  ];

  // source: ECMA-376 part 2, 10 (parts, relations, content types) and XML 1.0 well-formedness, judged by the parser saxes
  it('consist of the parts that the standard asks for, each well-formed XML', async () => {
    const parts = unzipSync(await written((sink) => writeXlsx(sheets, sink)));
    expect(Object.keys(parts).sort()).toEqual([
      '[Content_Types].xml',
      '_rels/.rels',
      'xl/_rels/workbook.xml.rels',
      'xl/styles.xml',
      'xl/workbook.xml',
      'xl/worksheets/sheet1.xml',
      'xl/worksheets/sheet2.xml',
    ]);
    for (const part of Object.values(parts)) new SaxesParser({ xmlns: true }).write(strFromU8(part)).close();
  });

  it('store numbers as numbers, everything else as text, and hold the header in place', async () => {
    const xml = strFromU8(
      unzipSync(await written((sink) => writeXlsx(sheets, sink)))['xl/worksheets/sheet1.xml']!,
    );
    expect(xml).toContain('<c r="B2"><v>82.5</v></c>');
    expect(xml).toContain('<c r="C2" s="2" t="inlineStr"><is><t xml:space="preserve">=1+1</t></is></c>');
    expect(xml).not.toContain('<f>');
    expect(xml).toContain('state="frozen"');
    expect(xml).toContain('<col min="3" max="3" width="40" customWidth="1"/>');
  });

  it('come out the same, byte by byte, from the same rows', async () => {
    expect(await written((sink) => writeXlsx(sheets, sink))).toEqual(
      await written((sink) => writeXlsx(sheets, sink)),
    );
  });

  it.each([
    ['a/b', 1],
    ['', 1],
    ['x'.repeat(32), 1],
    ['Notes', 2],
  ])('refuse the sheet name %j', async (name, times) => {
    const named = Array.from({ length: times }, () => ({ name, columns, rows: [] }));
    await expect(written((sink) => writeXlsx(named, sink))).rejects.toThrow(/cannot be named/);
  });

  it('refuse a text longer than a cell, naming the cell', async () => {
    const rows = [['x'.repeat(32_768), 1, null]];
    await expect(written((sink) => writeXlsx([{ name: 'A', columns, rows }], sink))).rejects.toThrow(
      /cell A2 of sheet A/,
    );
  });
});

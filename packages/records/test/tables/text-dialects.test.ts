import { describe, expect, it } from 'vitest';
import { finding, openBytes, openFixture, rowsOf, textsOf } from './reading-help.ts';

// source: the files' own text as their publisher wrote it (GBIF dwca-io test resources; see fixtures/SOURCES.md)
describe('files of a biodiversity publisher', () => {
  it('takes a tab file with byte-order mark that is named .csv', async () => {
    const table = await openFixture('MOBOTDarwinCore.csv');
    expect(table.separator).toBe('\t');
    expect(table.headers.slice(0, 2)).toEqual(['catalogNumber', 'institutionCode']);
    const rows = await textsOf(table);
    expect(rows).toHaveLength(3);
    expect(rows[0]?.slice(0, 4)).toEqual(['1', 'MO', 'Tropicos', 'Thelypteris minutula C.V. Morton']);
  });

  it('takes line ends of CR alone, with doubled quotes and commas in cells', async () => {
    expect(await textsOf(await openFixture('csv_optional_quotes_excel2008CSV.csv'))).toEqual([
      ['1', 'Gadus morhua', 'This has a, comma'],
      ['2', 'Abies alba', 'I say this is only a "quote"'],
      ['3', 'Pomatoma saltatrix', 'What though, "if you have a quote" and a comma'],
      ['4', 'Yikes ofcourses', 'What, if we have a "quote, which has a comma, or 2"'],
    ]);
  });

  it('counts an empty line but gives no row for it', async () => {
    const rows = await rowsOf(await openFixture('empty_line.tab'));
    expect(rows.map(({ row }) => row)).toEqual([2, 3, 4, 5, 7, 8]);
    expect(rows[4]?.cells[0]?.text).toBe('14');
  });

  it('leaves single quotes and inch marks in words and coordinates alone', async () => {
    const quoted = await textsOf(await openFixture('csv_incl_single_quotes.csv'));
    expect(quoted.map((row) => row[1])).toEqual([
      'Emberiza calandra',
      "'Emberiza calandra'",
      "Emberiza 'calandra'",
    ]);
    const loose = await textsOf(await openFixture('csv_unquoted.txt'));
    expect(loose.map((row) => row[1])).toEqual([
      'Emberiza calandra',
      "'Emberiza calandra",
      "Emberiza 'calandra'",
    ]);
    const places = await textsOf(await openFixture('csv_unquoted_coordinates.txt'));
    expect(places[0]).toEqual(['10', ' P. concolor', '10\'12"', '22\'33"', 'copenhagen ']);
  });

  it('keeps every column where all cells are quoted', async () => {
    const table = await openFixture('csv_always_quoted.csv');
    expect(table.headers).toHaveLength(24);
    expect((await textsOf(table)).map((row) => row.length)).toEqual([24, 24]);
  });
});

// source: RFC 4180, section 2, the examples of its rules 5 to 7
it('reads the examples of RFC 4180', async () => {
  const table = await openBytes('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx\r\n"aaa","b""bb","ccc"\r\n', {
    headerRow: 1,
  });
  expect(table.headers).toEqual(['aaa', 'b bb', 'ccc']);
  expect(await textsOf(table)).toEqual([
    ['zzz', 'yyy', 'xxx'],
    ['aaa', 'b"bb', 'ccc'],
  ]);
});

describe('separators', () => {
  it.each([';', '\t', '|', ','] as const)(
    'finds %j though other separators stand in cells',
    async (separator) => {
      const rows = [
        ['code', 'height', 'remark'],
        ['1', '12', 'blue; white, pale|dark'],
        ['2', '13', 'none'],
      ];
      const text = rows
        .map((row) => row.map((cell) => (/[;,|]/.test(cell) ? `"${cell}"` : cell)).join(separator))
        .join('\n');
      const table = await openBytes(text);
      expect(table.separator).toBe(separator);
      expect(await textsOf(table)).toEqual(rows.slice(1));
    },
  );

  it('is not led astray by decimal commas', async () => {
    const table = await openBytes('code;height;width\n1;1,5;2\n2;2,5;3\n3;3,25;1\n');
    expect(table.separator).toBe(';');
    expect((await textsOf(table))[0]).toEqual(['1', '1,5', '2']);
  });

  it('obeys the line sep=; that some programs put first', async () => {
    const table = await openBytes('sep=;\ncode;a,b\n1;2,3\n');
    expect(table.headers).toEqual(['code', 'a,b']);
  });

  it('takes what the person says', async () => {
    expect((await openBytes('a;b,c\n1;2,3\n', { separator: ',' })).headers).toEqual(['a;b', 'c']);
  });

  it('takes a list in one column, and rows that stop after their last value', async () => {
    expect(await textsOf(await openBytes('name\nMoon Path\nGrey Heron\n'))).toEqual([
      ['Moon Path'],
      ['Grey Heron'],
    ]);
    const ragged = await openBytes('code,a,b,c,d\n1,x\n2,x,y\n3\n4,x,y,z\n');
    expect(await textsOf(ragged)).toContainEqual(['2', 'x', 'y', '', '']);
    expect(finding(ragged, 'row-too-short')?.count).toBe(4);
  });
});

describe('quotes', () => {
  it('takes single quotes off where column names wear them too', async () => {
    const table = await openBytes("'code','remark'\n'1','blue, pale'\n'2','it''s white'\n");
    expect(table.headers).toEqual(['code', 'remark']);
    expect(await textsOf(table)).toEqual([
      ['1', 'blue, pale'],
      ['2', "it's white"],
    ]);
    expect(finding(table, 'single-quotes-removed')).toBeDefined();
  });

  it('keeps the single quotes of cultivar names', async () => {
    const table = await openBytes("code,name\n1,'Moon Path'\n2,'Grey Heron'\n");
    expect(await textsOf(table)).toEqual([
      ['1', "'Moon Path'"],
      ['2', "'Grey Heron'"],
    ]);
  });

  it('allows spaces between separator and quote', async () => {
    expect(await textsOf(await openBytes('code, remark, n\n1, "blue, pale", 2\n2, "white", 3\n'))).toEqual([
      ['1', 'blue, pale', '2'],
      ['2', 'white', '3'],
    ]);
  });

  it('names the row where a quote is left open', async () => {
    const table = await openBytes('code,remark\n1,fine\n2,"open\n3,fine\n');
    await expect(rowsOf(table)).rejects.toThrow(/a quote that opens in row 3 is never closed/);
  });

  it('tells rows as a spreadsheet counts them and lines as an editor does', async () => {
    const rows = await rowsOf(await openBytes('code,remark\r\n1,"two\r\nlines"\r\n\r\n2,x\r\n'));
    expect(rows.map(({ row, line }) => [row, line])).toEqual([
      [2, 2],
      [4, 5],
    ]);
  });
});

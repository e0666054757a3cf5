import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { TableError, writeXlsx } from '../../src/tables/index.ts';
import { packageParts } from '../../src/tables/xlsx/package-parts.ts';
import { openBytes, rowsOf, textsOf, written } from './reading-help.ts';

/** A spreadsheet file around the given sheet. */
function workbook(sheetData: string, more: Record<string, Uint8Array> = {}): Uint8Array {
  const parts = packageParts(['Notes']).map(({ path, xml }) => [path, strToU8(xml)] as const);
  const sheet = strToU8(`<worksheet><sheetData>${sheetData}</sheetData></worksheet>`);
  return zipSync({ ...Object.fromEntries(parts), 'xl/worksheets/sheet1.xml': sheet, ...more });
}

const cell = (address: string, text: string) => `<c r="${address}" t="inlineStr"><is><t>${text}</t></is></c>`;
const header = `<row r="1">${cell('A1', 'code')}${cell('B1', 'height')}</row>`;

/** Letters that cannot be packed much, by a linear congruential generator (Knuth, TAOCP 2, 3.3.4, the multiplier 1664525). */
function randomLetters(count: number): Uint8Array {
  const letters = new Uint8Array(count);
  let state = 1;
  for (let at = 0; at < count; at++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    letters[at] = 97 + ((state >>> 16) % 26);
  }
  return letters;
}

async function refusal(bytes: Uint8Array): Promise<TableError> {
  const thrown = await openBytes(bytes, {}, 'plants.xlsx')
    .then(rowsOf)
    .catch((error: unknown) => error);
  expect(thrown).toBeInstanceOf(TableError);
  return thrown as TableError;
}

describe('spreadsheets that would fill the memory', () => {
  it('are refused when a part unpacks to hundreds of times its size', async () => {
    const error = await refusal(workbook(header + ' '.repeat(30_000_000)));
    expect(error).toMatchObject({ code: 'too-large' });
    expect(error.message).toMatch(/more than 200 times its size/);
  });

  it('are refused when they hold too many files', async () => {
    const many = Object.fromEntries(
      Array.from({ length: 10_001 }, (_, at) => [`junk/${at}`, new Uint8Array(0)]),
    );
    expect((await refusal(workbook(header, many))).message).toMatch(/10000 are the limit/);
  });

  it('are refused when a value stands beyond the last column or row allowed', async () => {
    expect((await refusal(workbook(`${header}<row r="2">${cell('XFD2', 'x')}</row>`))).message).toMatch(
      /Row 2 of plants\.xlsx has 16384 cells; a table may have 2000 columns/,
    );
    expect((await refusal(workbook(`${header}<row r="1048577"/>`))).message).toMatch(
      /more than 1048576 rows/,
    );
  });

  it('are refused when they define entities of their own', async () => {
    const bomb =
      '<!DOCTYPE a [<!ENTITY b "bbbbbbbb"><!ENTITY c "&b;&b;&b;">]><worksheet><sheetData>&c;</sheetData></worksheet>';
    expect(await refusal(workbook('', { 'xl/worksheets/sheet1.xml': strToU8(bomb) }))).toMatchObject({
      code: 'damaged',
    });
  });

  it('are refused when one text is endless', async () => {
    const letters = Buffer.from(randomLetters(9_000_000)).toString();
    const error = await refusal(workbook(`${header}<row r="2">${cell('A2', letters)}</row>`));
    expect(error.message).toMatch(/one of its texts is endless/);
  });

  it('are read when only an empty, formatted cell stands far out', async () => {
    const table = await openBytes(
      workbook(`${header}<row r="2">${cell('A2', '1')}<c r="XFD2" s="1"/></row>`),
    );
    expect(await textsOf(table)).toEqual([['1', '']]);
  });
});

describe('damaged spreadsheets', () => {
  it('are told by the checksum, even where they could still be unpacked', async () => {
    const good = await written((sink) =>
      writeXlsx([{ name: 'A', columns: [{ header: 'code' }], rows: [['1']] }], sink),
    );
    const bad = Buffer.from(good);
    const directory = bad.lastIndexOf(Buffer.from('PK\x01\x02'));
    bad[directory + 16]! ^= 0xff;
    expect((await refusal(bad)).message).toMatch(
      /is damaged \(the checksum of xl\/worksheets\/sheet1\.xml is wrong\)/,
    );
  });

  it('are told when rows, cells or XML are out of order', async () => {
    expect((await refusal(workbook(`<row r="3"/><row r="2"/>`))).message).toMatch(/out of order/);
    expect(
      (await refusal(workbook(`<row r="1">${cell('B1', 'x')}${cell('A1', 'y')}</row>`))).message,
    ).toMatch(/out of order/);
    expect((await refusal(workbook('<row r="1">'))).code).toBe('damaged');
    expect((await refusal(Buffer.from('PK\x03\x04 cut off'))).code).toBe('damaged');
  });
});

import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Zip, ZipDeflate } from 'fflate';
import { columnLetters } from '../cell-address.ts';
import { limits } from '../limits.ts';
import { TableError } from '../table-error.ts';
import { checkedNumber, checkedRow } from '../write-checks.ts';
import type { WriteSheet, WriteValue } from '../write-types.ts';
import { packageParts, sheetEnd, sheetStart, styles, xmlText } from './package-parts.ts';

/** Characters of XML gathered before they are packed. */
const portion = 1 << 16;

/**
 * Writes a spreadsheet file (.xlsx, ECMA-376): numbers as numbers, texts as texts, the header row bold and held in place.
 * Texts are never run as formulas, for they are stored as texts. The sink is ended when all is written.
 * @param sink any writable stream; it is waited for when it is slow, so memory stays steady
 * @throws TableError for what a spreadsheet cannot hold; the sink is then destroyed and what it holds is not whole
 */
export async function writeXlsx(sheets: readonly WriteSheet[], sink: Writable): Promise<void> {
  checkNames(sheets);
  await pipeline(Readable.from(packed(sheets), { objectMode: false }), sink);
}

/** The bytes of the archive, as they come. */
async function* packed(sheets: readonly WriteSheet[]): AsyncGenerator<Uint8Array> {
  let ready: Uint8Array[] = [];
  const taken = () => {
    const now = ready;
    ready = [];
    return now;
  };
  const zip = new Zip((error, bytes) => {
    if (error) throw error;
    ready.push(bytes);
  });
  for (const { path, xml } of packageParts(sheets.map(({ name }) => name))) {
    added(zip, path).push(Buffer.from(xml), true);
  }
  for (const [at, sheet] of sheets.entries()) {
    const part = added(zip, `xl/worksheets/sheet${at + 1}.xml`);
    for await (const text of sheetXml(sheet)) {
      part.push(Buffer.from(text));
      yield* taken();
    }
    part.push(new Uint8Array(0), true);
  }
  zip.end();
  yield* taken();
}

function added(zip: Zip, path: string): ZipDeflate {
  const file = new ZipDeflate(path, { level: 6 });
  // A fixed time, so that the same table gives the same file.
  file.mtime = new Date(2000, 0, 1);
  zip.add(file);
  return file;
}

async function* sheetXml(sheet: WriteSheet): AsyncGenerator<string> {
  const letters = sheet.columns.map((_, at) => columnLetters(at + 1));
  let row = 1;
  const rowXml = (values: readonly WriteValue[], style: number) => {
    const cells = letters.map((letter, at) =>
      cellXml(values[at] ?? null, letter, { sheet: sheet.name, row, column: at + 1 }, style),
    );
    return `<row r="${row}">${cells.join('')}</row>`;
  };
  const names = sheet.columns.map(({ header }) => header);
  let text = sheetStart(sheet.columns) + rowXml(names, styles.header);
  for await (const values of sheet.rows) {
    row++;
    checkedRow(values, sheet.columns, row);
    if (row > limits.sheetRows) {
      const problem = `Sheet ${sheet.name} would have more than ${limits.sheetRows} rows, the most that a spreadsheet holds.`;
      throw new TableError('cannot-write', problem, 'Write it as CSV.', row);
    }
    text += rowXml(values, styles.text);
    if (text.length >= portion) {
      yield text;
      text = '';
    }
  }
  yield text + sheetEnd;
}

function cellXml(
  value: WriteValue,
  letter: string,
  place: { sheet: string; row: number; column: number },
  style: number,
): string {
  if (value === null || value === '') return '';
  const address = `${letter}${place.row}`;
  if (typeof value === 'number') return `<c r="${address}"><v>${checkedNumber(value, place)}</v></c>`;
  if (value.length > limits.sheetCellCharacters) {
    const problem = `The text in cell ${address} of sheet ${place.sheet} has ${value.length} characters; a spreadsheet cell holds ${limits.sheetCellCharacters}.`;
    throw new TableError('cannot-write', problem, 'Write it as CSV.', place.row);
  }
  return `<c r="${address}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${xmlText(value)}</t></is></c>`;
}

function checkNames(sheets: readonly WriteSheet[]): void {
  if (sheets.length === 0)
    throw new TableError(
      'cannot-write',
      'A spreadsheet needs at least one sheet.',
      'Name what is to be written.',
    );
  const taken = new Set<string>();
  for (const { name, columns } of sheets) {
    const sound = name.length > 0 && name.length <= 31 && !/[[\]:*?/\\]|^'|'$/.test(name);
    if (!sound || taken.has(name.toLowerCase())) {
      const problem = `A sheet cannot be named “${name}”.`;
      throw new TableError(
        'cannot-write',
        problem,
        'Use 1 to 31 characters without [ ] : * ? / \\, and each name once.',
      );
    }
    if (columns.length > limits.columns) {
      const problem = `Sheet ${name} would have ${columns.length} columns; ${limits.columns} are the limit.`;
      throw new TableError('cannot-write', problem, 'Write fewer columns.');
    }
    taken.add(name.toLowerCase());
  }
}

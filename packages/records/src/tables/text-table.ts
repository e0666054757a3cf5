import { bodyRows } from './body-rows.ts';
import type { ByteSource } from './byte-source.ts';
import { FindingLog } from './findings.ts';
import { stripFormulaGuard } from './formula-guard.ts';
import { findHeader, givenHeader } from './header-rows.ts';
import { readHeaders } from './headers.ts';
import { TableError } from './table-error.ts';
import type { OpenedTable, OpenOptions } from './table-types.ts';
import { type DetectedDialect, detectDialect } from './text-dialect.ts';
import { type DetectedEncoding, detectEncoding, utf8Chunks } from './text-encoding.ts';
import { type RawRow, textRecords } from './text-records.ts';

const sampleBytes = 1 << 18;
const sampleRows = 300;

/** Opens a text file: finds its encoding, separator, quotes and header, then reads its rows as they come. */
export async function openText(source: ByteSource, options: OpenOptions): Promise<OpenedTable> {
  const found = new FindingLog();
  const inRows = new FindingLog();
  const encoding = await detectEncoding(source, options.encoding);
  if (encoding.guess)
    found.add('encoding-guessed', encoding.guess.message, undefined, encoding.guess.confidence);
  const text = await firstText(source, encoding);
  const dialect = detectDialect(text, options.separator);
  if (dialect.quote === "'")
    found.add('single-quotes-removed', 'Cells are quoted with single quotes, which were taken off.');
  const raw = () => unguarded(textRecords(source.name, utf8Chunks(source, encoding), dialect));
  const sample = await firstRows(raw(), headerReach(options));
  const header =
    options.headerRow === undefined ? findHeader(sample, []) : givenHeader(sample, options.headerRow);
  if (!header) throw noHeader(source.name, sample);
  if (options.headerRow === undefined && options.separator === undefined)
    refuseProse(source.name, dialect, sample);
  const headers = readHeaders(header, sample, [], found);
  return {
    name: source.name,
    format: 'text',
    encoding: encoding.encoding,
    separator: dialect.separator,
    sheets: [],
    headers,
    headerRow: header.lower.row,
    get findings() {
      return [...found.list(), ...inRows.list()];
    },
    rows: {
      [Symbol.asyncIterator]() {
        inRows.clear();
        return bodyRows(raw(), header, headers, inRows);
      },
    },
  };
}

/** The first part of the text; cut at a line's end where the file goes on. */
async function firstText(source: ByteSource, encoding: DetectedEncoding): Promise<string> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of utf8Chunks(source, encoding)) {
    parts.push(chunk);
    length += chunk.length;
    if (length > sampleBytes) break;
  }
  const text = Buffer.concat(parts).subarray(0, sampleBytes).toString('utf8');
  if (length <= sampleBytes) return text;
  const end = Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'));
  return end > 0 ? text.slice(0, end + 1) : text;
}

function headerReach({ headerRow }: OpenOptions): number {
  return headerRow === undefined ? sampleRows : sampleRows + Math.max(...[headerRow].flat());
}

/** The first rows; those before a fault where there is one, which is told when the rows are read. */
async function firstRows(rows: AsyncIterable<RawRow>, most: number): Promise<RawRow[]> {
  const first: RawRow[] = [];
  try {
    for await (const row of rows) {
      first.push(row);
      if (first.length >= most) break;
    }
  } catch (error) {
    if (!(error instanceof TableError) || first.length < 2) throw error;
  }
  return first;
}

async function* unguarded(rows: AsyncIterable<RawRow>): AsyncGenerator<RawRow> {
  for await (const row of rows) {
    yield { ...row, cells: row.cells.map((cell) => ({ text: stripFormulaGuard(cell.text) })) };
  }
}

function noHeader(name: string, sample: readonly RawRow[]): TableError {
  return sample.some((row) => row.cells.some((cell) => cell.text.trim() !== ''))
    ? new TableError(
        'no-header',
        `${name} has no such header row.`,
        'Give the number of the row that holds the column names.',
      )
    : new TableError(
        'file-empty',
        `${name} holds nothing but empty lines.`,
        'Check that it was saved, and that its copy is complete.',
      );
}

/** A list in one column is a table; sentences are not. */
function refuseProse(name: string, dialect: DetectedDialect, sample: readonly RawRow[]): void {
  if (dialect.consistency > 0) return;
  const lines = sample
    .map((row) =>
      row.cells
        .map((cell) => cell.text)
        .join(' ')
        .trim(),
    )
    .filter((line) => line !== '');
  const words = lines.reduce((sum, line) => sum + line.split(/\s+/).length, 0) / Math.max(1, lines.length);
  const longest = Math.max(0, ...lines.map((line) => line.length));
  const torn = sample.some((row) => row.cells.length > 1);
  if (words < 5 && longest <= 200 && !torn) return;
  throw new TableError(
    'not-a-table',
    `${name} is a text, not a table: its lines do not fall into columns.`,
    'Save the table as CSV in UTF-8, with the column names in the first row and the same number of cells in each row.',
  );
}

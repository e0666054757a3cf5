import { assembleTable, firstRows } from './assemble-table.ts';
import type { ByteSource } from './byte-source.ts';
import { FindingLog } from './findings.ts';
import type { RawRow } from './raw-row.ts';
import { TableError } from './table-error.ts';
import type { OpenedTable, OpenOptions } from './table-types.ts';
import { type DetectedDialect, detectDialect } from './text-dialect.ts';
import { type DetectedEncoding, detectEncoding, utf8Chunks } from './text-encoding.ts';
import { textRecords } from './text-records.ts';

const sampleBytes = 1 << 18;

/** Opens a text file: finds its encoding, separator, quotes and header, then reads its rows as they come. */
export async function openText(source: ByteSource, options: OpenOptions): Promise<OpenedTable> {
  const found = new FindingLog();
  const encoding = await detectEncoding(source, options.encoding);
  if (encoding.guess)
    found.add('encoding-guessed', encoding.guess.message, undefined, encoding.guess.confidence);
  const dialect = detectDialect(await firstText(source, encoding), options.separator);
  if (dialect.quote === "'")
    found.add('single-quotes-removed', 'Cells are quoted with single quotes, which were taken off.');
  const rows = () => textRecords(source.name, utf8Chunks(source, encoding), dialect);
  const sample = await firstRows(rows(), options);
  if (options.headerRow === undefined && options.separator === undefined)
    refuseProse(source.name, dialect, sample);
  const facts = {
    name: source.name,
    format: 'text' as const,
    encoding: encoding.encoding,
    separator: dialect.separator,
    sheets: [],
  };
  return assembleTable({ facts, rows, sample, merged: [], found }, options);
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
  if (lines.length === 0) return;
  const words = lines.reduce((sum, line) => sum + line.split(/\s+/).length, 0) / lines.length;
  const longest = Math.max(...lines.map((line) => line.length));
  const torn = sample.some((row) => row.cells.length > 1);
  if (words < 5 && longest <= 200 && !torn) return;
  throw new TableError(
    'not-a-table',
    `${name} is a text, not a table: its lines do not fall into columns.`,
    'Save the table as CSV in UTF-8, with the column names in the first row and the same number of cells in each row.',
  );
}

import { CsvError, type Options, parse } from 'csv-parse';
import { parse as parseAtOnce } from 'csv-parse/sync';
import { stripFormulaGuard } from './formula-guard.ts';
import { limits } from './limits.ts';
import { type RawRow, refuseTooWide } from './raw-row.ts';
import { TableError } from './table-error.ts';
import type { Separator } from './table-types.ts';

/** How a text file separates and quotes its cells. */
export interface Dialect {
  readonly separator: Separator;
  readonly quote: '"' | "'";
  /** Spaces stand between a separator and the quote that follows. */
  readonly spacedQuotes: boolean;
}

function parserOptions({ separator, quote, spacedQuotes }: Dialect): Options {
  return {
    delimiter: separator,
    quote,
    escape: quote,
    record_delimiter: ['\r\n', '\n', '\r'],
    // A quote inside an unquoted cell (12" or 10'30) is a sign like any other.
    relax_quotes: true,
    relax_column_count: true,
    ltrim: spacedQuotes,
    max_record_size: limits.rowCharacters,
  };
}

/** The rows of a short text; those before the first fault where it has one. */
export function recordsOfSample(
  text: string,
  dialect: Dialect,
  most: number,
): { records: string[][]; sound: boolean } {
  const records: string[][] = [];
  const keep = (record: unknown) => {
    records.push(record as string[]);
    return null;
  };
  try {
    parseAtOnce(text, { ...parserOptions(dialect), to: most, on_record: keep });
    return { records, sound: true };
  } catch (error) {
    if (error instanceof CsvError) return { records, sound: false };
    throw error;
  }
}

/**
 * The rows of a text file, read as they come; apostrophes that `writeCsv` put before formulas are taken off.
 * @param chunks the text in UTF-8 without byte-order mark
 * @throws TableError when a quote is not closed, or a row is beyond the limits; the rows before are given first
 */
export async function* textRecords(
  name: string,
  chunks: AsyncIterable<Uint8Array>,
  dialect: Dialect,
): AsyncGenerator<RawRow> {
  let row = 0;
  let line = 1;
  try {
    for await (const records of recordBatches(chunks, dialect)) {
      for (const record of records) {
        row++;
        refuseTooWide(name, row, record.length);
        yield { row, line, cells: record.map((text) => ({ text: stripFormulaGuard(text) })) };
        line += 1 + lineBreaks(record);
      }
    }
  } catch (error) {
    throw error instanceof CsvError ? textFault(name, error, row + 1, line) : error;
  }
}

/** The records that each chunk completes; on a fault, those before it and then the fault. */
async function* recordBatches(
  chunks: AsyncIterable<Uint8Array>,
  dialect: Dialect,
): AsyncGenerator<string[][]> {
  let batch: string[][] = [];
  const parser = parse({
    ...parserOptions(dialect),
    on_record: (record) => {
      batch.push(record as string[]);
      return null;
    },
  });
  let fault: Error | undefined;
  const note = (error?: Error | null) => {
    fault ??= error ?? undefined;
  };
  parser.on('error', note);
  const taken = () => {
    const now = batch;
    batch = [];
    return now;
  };
  for await (const chunk of chunks) {
    await new Promise<void>((resolve) => parser.write(chunk, (error) => resolve(note(error))));
    yield taken();
    if (fault) throw fault;
  }
  await new Promise<void>((resolve) => {
    parser.once('error', () => resolve());
    parser.once('end', () => resolve());
    parser.resume().end();
  });
  yield taken();
  if (fault) throw fault;
}

function lineBreaks(record: readonly string[]): number {
  let count = 0;
  for (const text of record) {
    if (text.includes('\n') || text.includes('\r')) count += text.match(/\r\n|\r|\n/g)?.length ?? 0;
  }
  return count;
}

function textFault(name: string, error: CsvError, row: number, line: number): TableError {
  const place = row === line ? `row ${row}` : `row ${row} (line ${line} in a text editor)`;
  if (error.code === 'CSV_QUOTE_NOT_CLOSED') {
    return new TableError(
      'quote-not-closed',
      `In ${name}, a quote that opens in ${place} is never closed.`,
      'Close it or delete it.',
      row,
    );
  }
  if (error.code === 'CSV_MAX_RECORD_SIZE') {
    return new TableError(
      'quote-not-closed',
      `In ${name}, ${place} is longer than ${limits.rowCharacters} characters.`,
      'Look for a quote in that row that is never closed.',
      row,
    );
  }
  return new TableError(
    'damaged',
    `${name} cannot be read beyond ${place} (${error.message}).`,
    'Mend or delete that row.',
    row,
  );
}

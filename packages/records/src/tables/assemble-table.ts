import { bodyRows } from './body-rows.ts';
import type { MergedArea } from './cell-address.ts';
import { FindingLog } from './findings.ts';
import { findHeader, givenHeader } from './header-rows.ts';
import { readHeaders } from './headers.ts';
import { fillMerged } from './merged-rows.ts';
import type { RawRow } from './raw-row.ts';
import { TableError } from './table-error.ts';
import type { OpenedTable, OpenOptions } from './table-types.ts';

const sampleRows = 300;

/** What the two kinds of file hand over: their rows as they stand, readable again and again. */
export interface RawTable {
  readonly facts: Omit<OpenedTable, 'headers' | 'headerRow' | 'findings' | 'rows'>;
  readonly rows: (findings: FindingLog) => AsyncIterable<RawRow>;
  readonly sample: readonly RawRow[];
  readonly merged: readonly MergedArea[];
  /** Findings from before the rows were read. */
  readonly found: FindingLog;
}

/** The table under its header. */
export function assembleTable(
  { facts, rows, sample, merged, found }: RawTable,
  { headerRow }: OpenOptions,
): OpenedTable {
  const header = headerRow === undefined ? findHeader(sample, merged) : givenHeader(sample, headerRow);
  if (!header)
    throw noHeader(facts.sheet === undefined ? facts.name : `Sheet ${facts.sheet} of ${facts.name}`, sample);
  const headers = readHeaders(header, sample, merged, found);
  const mergedBelow = merged.filter((area) => area.top > header.lower.row);
  const inRows = new FindingLog();
  return {
    ...facts,
    headers,
    headerRow: header.lower.row,
    get findings() {
      return [...found.list(), ...inRows.list()];
    },
    rows: {
      [Symbol.asyncIterator]() {
        inRows.clear();
        const raw = rows(inRows);
        const filled = mergedBelow.length > 0 ? fillMerged(raw, mergedBelow, inRows) : raw;
        return bodyRows(filled, header, headers, inRows);
      },
    },
  };
}

/**
 * The first rows; where the file has a fault further on, those before it, for the fault is told when the rows are read.
 * @param options a header row far down makes the sample longer
 */
export async function firstRows(rows: AsyncIterable<RawRow>, { headerRow }: OpenOptions): Promise<RawRow[]> {
  const most =
    sampleRows + (headerRow === undefined ? 0 : Math.min(100_000, Math.max(...[headerRow].flat())));
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

function noHeader(what: string, sample: readonly RawRow[]): TableError {
  return sample.some((row) => row.cells.some((cell) => cell.text.trim() !== ''))
    ? new TableError(
        'no-header',
        `${what} has no such header row.`,
        'Give the number of the row that holds the column names.',
      )
    : new TableError(
        'file-empty',
        `${what} holds nothing but empty rows.`,
        'Check that it was saved, and that its copy is complete.',
      );
}

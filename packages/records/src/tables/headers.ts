import { columnLetters, type MergedArea } from './cell-address.ts';
import type { FindingLog } from './findings.ts';
import { coveringNames, type HeaderRows, textAt } from './header-rows.ts';
import { looksLikeData } from './looks-like-data.ts';
import type { RawRow } from './raw-row.ts';

/**
 * The columns' names, read from the header rows, and findings about them. Blank columns at the right end are left away.
 * @param sample the first rows of the table: a column without a name stays if any of them holds something in it
 */
export function readHeaders(
  header: HeaderRows,
  sample: readonly RawRow[],
  merged: readonly MergedArea[],
  findings: FindingLog,
): string[] {
  const width = Math.max(header.lower.cells.length, header.upper?.cells.length ?? 0);
  const names = joinedNames(header, width, merged);
  const first = withoutMark(names[0] ?? '');
  if (names.length > 0 && first !== names[0]) {
    findings.add(
      'mark-in-header-removed',
      'The remains of a byte-order mark were taken off the first column name.',
    );
    names[0] = first;
  }
  const headers = names.slice(0, usedWidth(names, header, sample));
  tell(header, headers, findings);
  return headers;
}

function joinedNames(header: HeaderRows, width: number, merged: readonly MergedArea[]): string[] {
  const { upper, lower, kind } = header;
  const lowerNames = Array.from({ length: width }, (_, column) => textAt(lower, column));
  if (!upper) return lowerNames;
  if (kind === 'units') {
    return lowerNames.map((unit, column) => {
      const bare = unit.replace(/^[([](.*)[)\]]$/, '$1');
      return bare === '' ? textAt(upper, column) : `${textAt(upper, column)} (${bare})`;
    });
  }
  const above = coveringNames(upper, width, merged);
  return lowerNames.map((name, column) => {
    const group = above[column] ?? '';
    if (name === '') return textAt(upper, column);
    return group === '' ? name : `${group} · ${name}`;
  });
}

/** A byte-order mark read in the wrong encoding, or turned into dots by a program that makes names of headers. */
function withoutMark(name: string): string {
  return name.replace(/^(\ufeff|ï»¿|ï\.\.|X\.U\.FEFF\.)+/, '').trim();
}

/** Columns up to the last one that has a name or, in the sample, a value. */
function usedWidth(names: readonly string[], header: HeaderRows, sample: readonly RawRow[]): number {
  let used = names.findLastIndex((name) => name !== '') + 1;
  for (const row of sample) {
    if (row.row <= header.lower.row) continue;
    const last = row.cells.findLastIndex((cell, column) => column < names.length && cell.text.trim() !== '');
    used = Math.max(used, last + 1);
  }
  return used;
}

function tell(header: HeaderRows, headers: readonly string[], findings: FindingLog): void {
  const row = header.lower.row;
  for (const title of header.titles) {
    findings.add('title-rows', 'Rows above the column names are taken for a title and left out.', {
      row: title.row,
    });
  }
  if (header.upper) {
    findings.add(
      'header-in-two-rows',
      `The column names stand in rows ${header.upper.row} and ${row} and were joined.`,
      { row },
    );
  }
  headers.forEach((name, at) => {
    const column = at + 1;
    if (name === '')
      findings.add('header-missing', `Column ${columnLetters(column)} has no name.`, { row, column });
    else if (headers.indexOf(name) < at)
      findings.add('header-twice', `Two columns are named “${name}”.`, { row, column });
    if (looksLikeData(name)) {
      const message =
        'The row of column names looks like data. If the file has none, add a row of names at the top.';
      findings.add('header-looks-like-data', message, { row, column });
    }
  });
}

import { columnLetters } from './cell-address.ts';
import type { FindingLog } from './findings.ts';
import { type HeaderRows, textAt } from './header-rows.ts';
import type { RawRow } from './raw-row.ts';
import type { Cell, TableRow } from './table-types.ts';

const emptyCell: Cell = { text: '' };

/**
 * The rows below the header: empty ones and repetitions of the header left out, short ones filled up with empty cells, and
 * empty cells beyond the last column cut off.
 */
export async function* bodyRows(
  raw: AsyncIterable<RawRow>,
  header: HeaderRows,
  headers: readonly string[],
  findings: FindingLog,
): AsyncGenerator<TableRow> {
  const headings = [header.upper, header.lower].filter((row) => row !== undefined).map((row) => names(row));
  for await (const row of raw) {
    if (row.row <= header.lower.row || row.cells.every((cell) => cell.text.trim() === '')) continue;
    if (headings.some((heading) => repeats(row, heading))) {
      findings.add('header-repeated', 'Rows that repeat the column names were left out.', { row: row.row });
      continue;
    }
    yield { ...row, cells: fit(row, headers.length, findings) };
  }
}

function names(row: RawRow): string[] {
  return row.cells.map((_, column) => textAt(row, column));
}

/** One name alone may well be a value, so a header of a single column is never seen as repeated. */
function repeats(row: RawRow, heading: readonly string[]): boolean {
  if (heading.filter((name) => name !== '').length < 2) return false;
  const width = Math.max(heading.length, row.cells.length);
  for (let column = 0; column < width; column++)
    if (textAt(row, column) !== (heading[column] ?? '')) return false;
  return true;
}

function fit({ row, cells }: RawRow, width: number, findings: FindingLog): readonly Cell[] {
  if (cells.length < width) {
    findings.add(
      'row-too-short',
      'Rows have fewer cells than there are columns; the missing ones are taken as empty.',
      { row },
    );
    return [...cells, ...Array.from({ length: width - cells.length }, () => emptyCell)];
  }
  if (cells.length === width) return cells;
  const last = cells.findLastIndex((cell) => cell.text.trim() !== '');
  if (last >= width) {
    const column = last + 1;
    findings.add(
      'cell-beyond-header',
      `Cells stand to the right of the last column name (${columnLetters(width)}).`,
      { row, column },
    );
  }
  return cells.slice(0, Math.max(width, last + 1));
}

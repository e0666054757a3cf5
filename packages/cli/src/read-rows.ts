import { openTable } from '@keelrow/records';
import { InputError } from './telling.ts';

/** The cells of a file as text, row by row. */
export interface FileRows {
  /** The file as the person named it. */
  readonly name: string;
  readonly headers: readonly string[];
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** Rows left out of these because they repeat the headers. */
  readonly repeatedHeaders: readonly number[];
}

/**
 * Reads a whole table as trimmed text; a spreadsheet's numbers as JavaScript writes them.
 *
 * @param needed columns; where row 1 names them all, it is the header whatever the rows below look like
 */
export async function readRows(file: string, needed: readonly string[] = []): Promise<FileRows> {
  let table = await openTable({ path: file }, needed.length > 0 ? { headerRow: 1 } : {});
  const names = table.headers.map((header) => header.toLowerCase());
  if (!needed.every((column) => names.includes(column))) table = await openTable({ path: file });
  const rows: { row: number; cells: string[] }[] = [];
  for await (const { row, cells } of table.rows)
    rows.push({ row, cells: cells.map((cell) => cell.number?.toString() ?? cell.text.trim()) });
  const repeated = table.findings.filter(({ code }) => code === 'header-repeated');
  return {
    name: file,
    headers: table.headers,
    rows,
    repeatedHeaders: repeated.flatMap(({ places }) => places.map(({ row }) => row)),
  };
}

/** Where each column stands, by its name in any case. Missing ones are refused; unknown ones are told and left aside. */
export function columnPlaces(
  file: string,
  headers: readonly string[],
  { needed, allowed }: { readonly needed: readonly string[]; readonly allowed: readonly string[] },
): Map<string, number> {
  const names = headers.map((header) => header.toLowerCase());
  const missing = needed.filter((column) => !names.includes(column));
  if (missing.length > 0)
    throw new InputError(
      `${file}, row 1: there is no column ${missing.join(' and no column ')}; its columns are ${headers.join(', ')}`,
      `name them ${[...needed, ...allowed].join(', ')} (the last ${allowed.length === 1 ? 'one' : 'ones'} may be absent)`,
    );
  const known = [...needed, ...allowed];
  const unknown = headers.filter((_, at) => !known.includes(names[at]!));
  if (unknown.length > 0) console.error(`heed: ${file}: not used: ${unknown.join(', ')}`);
  return new Map(
    known.filter((column) => names.includes(column)).map((column) => [column, names.indexOf(column)]),
  );
}

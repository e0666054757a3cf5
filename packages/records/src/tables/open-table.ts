import { openBytes } from './byte-source.ts';
import { recognise } from './recognise.ts';
import type { OpenedTable, OpenOptions, TableSource } from './table-types.ts';
import { openText } from './text-table.ts';
import { openXlsx } from './xlsx/xlsx-table.ts';

/**
 * Opens a file as a table: a text file with separators, or a spreadsheet (.xlsx). What the file is, is told by its content,
 * never by its name.
 * @throws TableError when it holds no table, in words for the person
 */
export async function openTable(source: TableSource, options: OpenOptions = {}): Promise<OpenedTable> {
  const bytes = await openBytes(source);
  const kind = recognise(bytes.name, await bytes.head(1 << 16));
  return kind === 'zip' ? openXlsx(bytes, options) : openText(bytes, options);
}

import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Table } from '@keelrow/quant';

const folder = fileURLToPath(new URL('../../../../../../shared/reference/', import.meta.url));

/** Whether the large reference data lie beside the project; tests that need them are skipped, and counted so, otherwise. */
export const hasReference = (path: string): boolean => existsSync(folder + path);

export const readReference = (path: string): string => readFileSync(folder + path, 'utf8');

/** A plain CSV file of the reference data, without commas in cells, as records by column. */
export function referenceRows(path: string): Record<string, string>[] {
  const [header, ...lines] = readReference(path).trim().split('\n');
  const cellsOf = (line: string) => line.split(',').map((cell) => cell.replace(/^"|"$/g, ''));
  const columns = cellsOf(header!);
  return lines.map((line) => {
    const cells = cellsOf(line);
    return Object.fromEntries(columns.map((column, k) => [column, cells[k]!]));
  });
}

/** Records as a table; NA is a missing cell. */
export function tableOf(rows: readonly Readonly<Record<string, string>>[]): Table {
  const names = Object.keys(rows[0]!);
  const cells = (name: string) => rows.map((row) => (row[name] === 'NA' ? '' : row[name]!));
  return { columns: new Map(names.map((name) => [name, cells(name)])) };
}

import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { Table } from '../../src/index.ts';

/** Reads a CSV file without quoted commas; gzip by its ending. */
export function readTable(path: string): Table {
  const bytes = readFileSync(path);
  return parseTable((path.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8'));
}

export function parseTable(text: string): Table {
  const [header, ...lines] = text.trim().split(/\r?\n/);
  const rows = lines.map((line) => line.split(',').map(unquote));
  return {
    columns: new Map(header!.split(',').map((name, c) => [unquote(name), rows.map((row) => row[c]!)])),
  };
}

function unquote(cell: string): string {
  return cell.replaceAll('"', '').trim();
}

/** The same table with its rows in another order. */
export function reordered(table: Table, order: readonly number[]): Table {
  return { columns: new Map([...table.columns].map(([name, cells]) => [name, order.map((i) => cells[i]!)])) };
}

import { readFileSync } from 'node:fs';
import { PassThrough, type Writable } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import type { Finding, OpenedTable, OpenOptions, TableRow } from '../../src/tables/index.ts';
import { openTable } from '../../src/tables/index.ts';

/** Opens text or bytes as if they were an uploaded file. */
export function openBytes(
  content: string | Uint8Array,
  options?: OpenOptions,
  name = 'plants.csv',
): Promise<OpenedTable> {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  return openTable({ name, bytes }, options);
}

const fixturePath = (name: string) => new URL(`./fixtures/${name}`, import.meta.url).pathname;

export function openFixture(name: string, options?: OpenOptions): Promise<OpenedTable> {
  return openTable({ path: fixturePath(name) }, options);
}

export function fixtureBytes(name: string): Uint8Array {
  return readFileSync(fixturePath(name));
}

export async function rowsOf(table: OpenedTable): Promise<TableRow[]> {
  const rows: TableRow[] = [];
  for await (const row of table.rows) rows.push(row);
  return rows;
}

/** The texts of all rows. */
export async function textsOf(table: OpenedTable): Promise<string[][]> {
  return (await rowsOf(table)).map((row) => row.cells.map((cell) => cell.text));
}

export function finding(table: OpenedTable, code: Finding['code']): Finding | undefined {
  return table.findings.find((each) => each.code === code);
}

/** What a writer writes. */
export async function written(write: (sink: Writable) => Promise<void>): Promise<Buffer> {
  const sink = new PassThrough();
  const [bytes] = await Promise.all([buffer(sink), write(sink)]);
  return bytes;
}

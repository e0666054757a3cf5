import { createWriteStream, existsSync, mkdirSync } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Writable } from 'node:stream';
import { type AnyRow, type Field, fieldsOf, type KindName, kindNames, kindOf } from '@keelrow/breeding/facts';
import type { Programme } from '../database/programme.ts';
import { readSettings } from '../database/settings.ts';
import { inWords } from '../database/trouble.ts';
import { RecordsError } from '../errors.ts';
import { countRecords, everyRecord } from '../reading/records.ts';
import { type WriteSheet, type WriteValue, writeCsv, writeXlsx } from '../tables/index.ts';
import { traitRules } from '../writing/note-values.ts';
import { asWriteColumns, fileColumns, type Units } from './file-rows.ts';

export type FileFormat = 'csv' | 'xlsx';

async function sheetOf(programme: Programme, kind: KindName, units: Units): Promise<WriteSheet> {
  const columns = fileColumns(kind, await traitRules(programme.read), units);
  async function* rows(): AsyncGenerator<WriteValue[]> {
    for await (const page of everyRecord(programme.read, kind)) {
      for (const row of page) yield columns.map(({ value }) => value(row));
    }
  }
  return { name: kind, columns: asWriteColumns(columns), rows: rows() };
}

const unitsOf = async (programme: Programme): Promise<Units> =>
  (await readSettings(programme.read))?.units ?? 'metric';

/** Writes all standing records of one kind to a stream, in the units that the programme speaks. */
export async function exportKind(
  programme: Programme,
  kind: KindName,
  format: FileFormat,
  sink: Writable,
): Promise<void> {
  const sheet = await sheetOf(programme, kind, await unitsOf(programme));
  if (format === 'csv') await writeCsv(sheet.columns, sheet.rows, sink, { byteOrderMark: true });
  else await writeXlsx([sheet], sink);
}

/** Kinds of which there is anything. */
async function kindsInUse(programme: Programme): Promise<KindName[]> {
  const counts = await countRecords(programme.read, kindNames);
  return kindNames.filter((kind) => counts[kind] > 0);
}

/** Writes the whole programme as one spreadsheet, a sheet for each kind. */
export async function exportWorkbook(programme: Programme, sink: Writable): Promise<void> {
  const units = await unitsOf(programme);
  const sheets: WriteSheet[] = [];
  for (const kind of await kindsInUse(programme)) sheets.push(await sheetOf(programme, kind, units));
  await writeXlsx(sheets, sink);
}

/** Writes the whole programme into a folder, a CSV file for each kind; returns their names. */
export async function exportFolder(programme: Programme, folder: string): Promise<string[]> {
  mkdirSync(folder, { recursive: true });
  const names: string[] = [];
  for (const kind of await kindsInUse(programme)) {
    const name = `${kind}.csv`;
    await toFile(join(folder, name), (sink) => exportKind(programme, kind, 'csv', sink));
    names.push(name);
  }
  return names;
}

/** Writes a file whole or not at all: under another name first, then renamed. */
export async function toFile(path: string, write: (sink: Writable) => Promise<void>): Promise<void> {
  if (!existsSync(dirname(path))) {
    throw new RecordsError('input', `there is no folder ${dirname(path)}`, 'make it first, or name another');
  }
  const partial = `${path}.part`;
  try {
    await write(createWriteStream(partial));
    await rename(partial, path);
  } catch (error) {
    await rm(partial, { force: true });
    throw inWords(error);
  }
}

/** Header and one example row of a kind, to begin a file with. */
export async function writeTemplate(kind: KindName, format: FileFormat, sink: Writable): Promise<void> {
  const columns = fieldsOf(kind).map(([name]) => ({ header: name, width: Math.max(12, name.length + 2) }));
  const example = exampleRow(kind);
  const rows = [fieldsOf(kind).map(([name]) => example[name] ?? null) as WriteValue[]];
  if (format === 'csv') await writeCsv(columns, rows, sink, { byteOrderMark: true });
  else await writeXlsx([{ name: kind, columns, rows }], sink);
}

/** An example row as it would stand in a file; of alternatives that exclude each other the first. */
export function exampleRow(kind: KindName): AnyRow {
  const { oneOf } = kindOf(kind);
  const numeric = (field: Field): boolean => field.type === 'number' || field.type === 'integer';
  return Object.fromEntries(
    fieldsOf(kind).map(([name, field]) => {
      if (oneOf && name !== oneOf[0] && oneOf.includes(name)) return [name, null];
      return [name, field.example === '' ? null : numeric(field) ? Number(field.example) : field.example];
    }),
  );
}

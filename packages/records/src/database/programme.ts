import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { ProgrammeSettings } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import { keepReadings } from '../reading/kept-readings.ts';
import type { Tables } from '../schema/columns.ts';
import { holdsSchema, migrate } from '../schema/migrate.ts';
import { folderWarnings } from './folder.ts';
import { openPool } from './postgres.ts';
import { readSettings, writeSettings } from './settings.ts';
import { openFile, readingHandle, writingHandle } from './sqlite.ts';
import { inWords } from './trouble.ts';

/** An opened programme. Reads and writes go through handles of their own, so that a long write delays no reading. */
export interface Programme {
  /** Folder of the programme, or the PostgreSQL address without its password. */
  readonly location: string;
  readonly backend: 'sqlite' | 'postgres';
  readonly read: Kysely<Tables>;
  readonly write: Kysely<Tables>;
  /** Milliseconds that an act waits for another process's act to end. */
  readonly patience: number;
  /** Folder for photos and profiles; null where none was named beside a PostgreSQL address. */
  readonly folder: string | null;
  readonly warnings: readonly string[];
  close(): Promise<void>;
}

export const storeFile = 'keelrow.sqlite';

const isPostgresAddress = (where: string): boolean => /^postgres(ql)?:\/\//.test(where);

/** Not the store, nor the log beside it: another process may be making this very programme between two looks. */
const isForeign = (name: string): boolean => !name.startsWith('.') && !name.startsWith(storeFile);

/** Long enough for the import of a large file by another process, in milliseconds. */
const usualPatience = 60_000;

const patienceToConnect = 10_000;

/** Whether a programme is kept in this folder. */
export const holdsProgramme = (folder: string): boolean => existsSync(join(folder, storeFile));

interface OpeningOptions {
  /** Milliseconds that an act waits for another process's act to end. */
  readonly patience?: number | undefined;
  /** Folder for photos and profiles beside a `postgres://` address; a programme in a folder has its own. */
  readonly files?: string | undefined;
}

/**
 * Opens a programme in a folder (SQLite) or at a `postgres://` address, bringing its schema up to date.
 * settings: given, a programme that is not there yet is made with them; not given, it must be there.
 * Throws RecordsError: no such programme, a newer version's, locked, read-only, damaged, no access.
 */
export async function openProgramme(
  where: string,
  settings?: ProgrammeSettings,
  { patience = usualPatience, files }: OpeningOptions = {},
): Promise<Programme> {
  try {
    return isPostgresAddress(where)
      ? await openPostgres(where, settings, patience, files)
      : await openFolder(resolve(where), settings, patience);
  } catch (error) {
    throw inWords(error);
  }
}

const noProgramme = (where: string): RecordsError =>
  new RecordsError(
    'absent',
    `there is no programme in ${where}`,
    'name its folder or address with --data, or begin one with “keelrow serve --data …”',
  );

/** Brings the schema up to date, and a new programme into being; leaves a store alone that holds none of ours. */
async function bringUpToDate(
  handle: Kysely<Tables>,
  where: string,
  settings: ProgrammeSettings | undefined,
): Promise<void> {
  const bare = handle as unknown as Kysely<never>;
  if (!settings && !(await holdsSchema(bare))) throw noProgramme(where);
  await migrate(bare);
  const there = await readSettings(handle);
  if (!there && !settings) throw noProgramme(where);
  if (!there && settings) await writeSettings(handle, settings);
}

async function openFolder(
  folder: string,
  settings: ProgrammeSettings | undefined,
  patience: number,
): Promise<Programme> {
  if (!holdsProgramme(folder)) {
    if (!settings) throw noProgramme(folder);
    if (existsSync(folder) && readdirSync(folder).some(isForeign)) {
      throw new RecordsError(
        'input',
        `${folder} holds other files and no programme`,
        'choose an empty or new folder',
      );
    }
    mkdirSync(folder, { recursive: true });
  }
  const file = join(folder, storeFile);
  const writer = openFile(file, { mustExist: settings === undefined, patience });
  const opened = [writer];
  const close = () => {
    for (const database of opened) database.close();
  };
  try {
    const write = writingHandle(writer, patience);
    await bringUpToDate(write, folder, settings);
    const reader = openFile(file, { readonly: true, mustExist: true, patience });
    opened.push(reader);
    const read = readingHandle(reader);
    keepReadings(read);
    return {
      location: folder,
      backend: 'sqlite',
      read,
      write,
      patience,
      folder,
      warnings: folderWarnings(folder),
      close: async () => {
        await read.destroy();
        // A handle that was never asked anything leaves its connection open; and the writer must be the last to
        // close, since a reader cannot clear the log away.
        reader.close();
        await write.destroy();
        close();
      },
    };
  } catch (error) {
    close();
    throw error;
  }
}

async function openPostgres(
  address: string,
  settings: ProgrammeSettings | undefined,
  patience: number,
  files: string | undefined,
): Promise<Programme> {
  const folder = files === undefined ? null : resolve(files);
  if (folder !== null) mkdirSync(folder, { recursive: true });
  // Two pools: acts that wait for one another must not take the connections of those who read.
  const [read, write] = [
    openPool(address, patienceToConnect),
    openPool(address, patience + patienceToConnect),
  ];
  const close = async () => {
    await read.destroy();
    await write.destroy();
  };
  try {
    await bringUpToDate(write, 'this database', settings);
  } catch (error) {
    await close();
    throw error;
  }
  keepReadings(read);
  const url = new URL(address);
  url.password = '';
  return {
    location: url.href,
    backend: 'postgres',
    read,
    write,
    patience,
    folder,
    warnings: folder === null ? [] : folderWarnings(folder),
    close,
  };
}

import { type Kysely, Migrator } from 'kysely';
import { RecordsError } from '../errors.ts';
import { firstRecords } from './0001-first-records.ts';
import { phones } from './0002-phones.ts';
import { roundSheets } from './0003-round-sheets.ts';

/** All migrations by name, in order. Names are never reused and shipped ones never edited. */
export const migrations = {
  '0001-first-records': firstRecords,
  '0002-phones': phones,
  '0003-round-sheets': roundSheets,
};

const newestMigration = Object.keys(migrations).at(-1)!;

/** The table in which migrations are noted; it is made before all others. */
const noted = 'kysely_migration';

async function tableNames(db: Kysely<never>): Promise<string[]> {
  return (await db.introspection.getTables({ withInternalKyselyTables: true })).map(({ name }) => name);
}

/** Migrations that the store has run, oldest first; empty where it is new. */
async function ranBefore(db: Kysely<never>): Promise<string[]> {
  if (!(await tableNames(db)).includes(noted)) return [];
  const rows = await (db as unknown as Kysely<{ kysely_migration: { name: string } }>)
    .selectFrom('kysely_migration')
    .select('name')
    .orderBy('name')
    .execute();
  return rows.map(({ name }) => name);
}

/** Whether a Keelrow of any version has made its tables here. */
export const holdsSchema = async (db: Kysely<never>): Promise<boolean> => (await ranBefore(db)).length > 0;

async function refuseOthersTables(db: Kysely<never>): Promise<void> {
  const names = await tableNames(db);
  if (names.length === 0 || names.includes(noted)) return;
  throw new RecordsError(
    'input',
    `this database belongs to another program: it holds a table “${names[0]}” and no programme of Keelrow`,
    'begin the programme in a folder or database of its own; nothing was changed',
  );
}

/** Brings the store to the newest schema; refuses one that a newer Keelrow has written. */
export async function migrate(db: Kysely<never>): Promise<void> {
  const ran = await ranBefore(db);
  const unknown = ran.filter((name) => !Object.hasOwn(migrations, name));
  if (unknown.length > 0) {
    throw new RecordsError(
      'store',
      `this programme was written by a newer version of Keelrow (it knows “${unknown.at(-1)}”, this version goes to “${newestMigration}”)`,
      'use that newer version here; nothing was changed',
    );
  }
  if (ran.includes(newestMigration)) return;
  if (ran.length === 0) await refuseOthersTables(db);
  const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
  const { error } = await migrator.migrateToLatest();
  // The result list may call a step done that was rolled back; the error alone tells.
  if (error) throw error;
}

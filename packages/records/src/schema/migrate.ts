import { type Kysely, Migrator } from 'kysely';
import { RecordsError } from '../errors.ts';
import { firstRecords } from './0001-first-records.ts';

/** All migrations by name, in order. Names are never reused and shipped ones never edited. */
export const migrations = { '0001-first-records': firstRecords };

export const newestMigration = Object.keys(migrations).at(-1)!;

/** Migrations that the store has run, oldest first; empty where it is new. */
async function ranBefore(db: Kysely<never>): Promise<string[]> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some(({ name }) => name === 'kysely_migration')) return [];
  const rows = await (db as unknown as Kysely<{ kysely_migration: { name: string } }>)
    .selectFrom('kysely_migration')
    .select('name')
    .orderBy('name')
    .execute();
  return rows.map(({ name }) => name);
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
  const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
  const { error } = await migrator.migrateToLatest();
  // The result list may call a step done that was rolled back; the error alone tells.
  if (error) throw error;
}

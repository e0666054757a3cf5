import Database from 'better-sqlite3';
import {
  CompiledQuery,
  type DatabaseConnection,
  Kysely,
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
} from 'kysely';
import type { Tables } from '../schema/columns.ts';

/** Milliseconds that one process waits for another's write to end. */
const patience = 15_000;

/**
 * Opens the file with the promises that the records rest on: every commit is on the disk before it is acknowledged
 * (write-ahead log, synchronous=FULL) and references are checked. Throws where a promise is not kept.
 */
export function openFile(
  file: string,
  options: { readonly?: boolean; mustExist: boolean },
): Database.Database {
  const database = new Database(file, {
    readonly: options.readonly ?? false,
    fileMustExist: options.mustExist,
    timeout: patience,
  });
  try {
    if (!options.readonly) {
      const mode = database.pragma('journal_mode = WAL', { simple: true });
      if (mode !== 'wal') throw new Error(`write-ahead log refused (journal mode ${String(mode)})`);
    }
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    database.pragma('cache_size = -65536');
    if (database.pragma('synchronous', { simple: true }) !== 2) throw new Error('synchronous=FULL refused');
    return database;
  } catch (error) {
    database.close();
    throw error;
  }
}

/**
 * Kysely begins deferred transactions, which fail at their first write where another process has written since.
 * Ours begin immediate: they wait for the other process and then have the write lock from the start.
 */
class WritingDriver extends SqliteDriver {
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'));
  }
}

/**
 * Kysely runs SQLite's migrations outside transactions, so that they may switch the checking of references off. Ours
 * only add and need no such thing; within a transaction a process that is killed leaves no half schema, and two
 * processes that begin one programme at once do not make its tables twice.
 */
class WritingAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class WritingDialect extends SqliteDialect {
  readonly #database: Database.Database;

  constructor(database: Database.Database) {
    super({ database });
    this.#database = database;
  }

  override createDriver(): SqliteDriver {
    return new WritingDriver({ database: this.#database });
  }

  override createAdapter(): WritingAdapter {
    return new WritingAdapter();
  }
}

export const writingHandle = (database: Database.Database): Kysely<Tables> =>
  new Kysely<Tables>({ dialect: new WritingDialect(database) });

export const readingHandle = (database: Database.Database): Kysely<Tables> =>
  new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });

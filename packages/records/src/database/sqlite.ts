import { setTimeout as wait } from 'node:timers/promises';
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

/** Milliseconds between two tries to begin writing while another process writes. */
const betweenTries = 10;

/**
 * Opens the file with the promises that the records rest on: every commit is on the disk before it is acknowledged
 * (write-ahead log, synchronous=FULL) and references are checked. Throws where a promise is not kept.
 * patience: milliseconds to wait where another process stands in the way of a single statement.
 */
export function openFile(
  file: string,
  options: { readonly?: boolean; mustExist: boolean; patience: number },
): Database.Database {
  const database = new Database(file, {
    readonly: options.readonly ?? false,
    fileMustExist: options.mustExist,
    timeout: options.patience,
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

const isBusy = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY');

/**
 * Kysely begins deferred transactions, which fail at their first write where another process has written since.
 * Ours begin immediate: they wait for the other process and then have the write lock from the start. SQLite's own
 * waiting would hold up the whole thread, reading included; ours tries again and again and lets other work go on.
 */
class WritingDriver extends SqliteDriver {
  readonly #database: Database.Database;
  readonly #patience: number;

  constructor(database: Database.Database, patience: number) {
    super({ database });
    this.#database = database;
    this.#patience = patience;
  }

  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    const latest = performance.now() + this.#patience;
    for (;;) {
      try {
        this.#database.pragma('busy_timeout = 0');
        await connection.executeQuery(CompiledQuery.raw('begin immediate'));
        return;
      } catch (error) {
        if (!isBusy(error) || performance.now() > latest) throw error;
      } finally {
        this.#database.pragma(`busy_timeout = ${this.#patience}`);
      }
      await wait(betweenTries);
    }
  }

  /**
   * A full disk or a failing one ends the transaction by itself; to roll it back again would hide the cause.
   * Source: SQLite, “Transactions”, section 2.3: automatic rollbacks.
   */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#database.inTransaction) await super.rollbackTransaction(connection);
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
  readonly #patience: number;

  constructor(database: Database.Database, patience: number) {
    super({ database });
    this.#database = database;
    this.#patience = patience;
  }

  override createDriver(): SqliteDriver {
    return new WritingDriver(this.#database, this.#patience);
  }

  override createAdapter(): WritingAdapter {
    return new WritingAdapter();
  }
}

/** patience: milliseconds that an act waits for another process's write to end. */
export const writingHandle = (database: Database.Database, patience: number): Kysely<Tables> =>
  new Kysely<Tables>({ dialect: new WritingDialect(database, patience) });

export const readingHandle = (database: Database.Database): Kysely<Tables> =>
  new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });

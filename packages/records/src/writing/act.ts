import { createHash } from 'node:crypto';
import { sql, type Transaction } from 'kysely';
import { v7 as newId } from 'uuid';
import type { Programme } from '../database/programme.ts';
import { readSettings, todayIn } from '../database/settings.ts';
import { inWords } from '../database/trouble.ts';
import type { Tables } from '../schema/columns.ts';

/** Who does something, on which device, by which way, and why. */
export interface ActBy {
  /** Id of the person; null where nobody is named (the first set-up, the demo). */
  readonly person: string | null;
  readonly device: string | null;
  readonly via: 'browser' | 'phone' | 'command' | 'import' | 'demo' | 'restore';
  readonly reason?: string;
  /** What the sender's own clock said, ISO 8601, where facts were made before they were sent. */
  readonly saidAt?: string;
  readonly file?: { readonly name: string; readonly hash: string };
}

/** One act under way: all that is stored within it is stored, or nothing. */
export interface Act {
  readonly tx: Transaction<Tables>;
  readonly seq: number;
  /** Today's date in the garden's time zone. */
  readonly today: string;
}

/** Any number that no other program uses for its locks in our database. */
const writersLock = 0x6b65656c;

/** Waits until no other process does an act on the PostgreSQL programme; its turn ends with the transaction. */
async function awaitTurn(tx: Transaction<Tables>, patience: number): Promise<void> {
  await sql`select set_config('lock_timeout', ${String(patience)}, true)`.execute(tx);
  await sql`select pg_advisory_xact_lock(${writersLock})`.execute(tx);
}

/**
 * Does work as one act: one transaction, one entry in the book of acts. Acts follow one another even where several
 * processes write, so that their numbers tell in which order they came to stand. What is thrown undoes all of it.
 */
export async function act<Result>(
  programme: Programme,
  by: ActBy,
  work: (act: Act) => Promise<Result>,
): Promise<Result> {
  try {
    return await programme.write.transaction().execute(async (tx) => {
      if (programme.backend === 'postgres') await awaitTurn(tx, programme.patience);
      const settings = await readSettings(tx);
      const now = new Date();
      const { seq } = await tx
        .insertInto('acts')
        .values({
          id: newId(),
          at: now.toISOString(),
          said_at: by.saidAt ?? null,
          person: by.person,
          device: by.device,
          via: by.via,
          reason: by.reason ?? null,
          file_name: by.file?.name ?? null,
          file_hash: by.file?.hash ?? null,
        })
        .returning('seq')
        .executeTakeFirstOrThrow();
      return await work({ tx, seq, today: todayIn(settings?.timeZone ?? 'UTC', now) });
    });
  } catch (error) {
    throw inWords(error);
  }
}

/** Digests that were worked out; an import asks for each of its facts several times. */
const digests = new WeakMap<object, string>();

/**
 * Digest of all that a fact says (its stored columns), by which the same fact in a file is known again. The columns
 * may not change after it was asked for.
 */
export function digestOf(columns: Readonly<Record<string, unknown>>): string {
  const known = digests.get(columns);
  if (known) return known;
  const said = Object.entries(columns)
    .filter(([, value]) => value !== null)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  const digest = createHash('sha256').update(JSON.stringify(said)).digest('hex').slice(0, 32);
  digests.set(columns, digest);
  return digest;
}

import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { latestAct } from './latest-act.ts';

interface Kept {
  readonly act: number;
  readonly value: Promise<unknown>;
}

/** Handles whose readings are kept: those of opened programmes. A handle within an act sees what no other sees yet. */
const kept = new WeakMap<object, Map<string, Kept>>();

/** From now on what is read of the whole programme by this handle is kept until the next act. */
export function keepReadings(db: Kysely<Tables>): void {
  kept.set(db, new Map());
}

/**
 * What a reading of the whole programme gave, read anew after each act: single pages need places, identities and
 * parents of all, which in a large programme take longer to read than the page itself. Nobody may change what it gives.
 * name: of the reading; the same for the same question alone.
 */
export async function untilNextAct<Read>(
  db: Kysely<Tables>,
  name: string,
  read: (db: Kysely<Tables>) => Promise<Read>,
): Promise<Read> {
  const readings = kept.get(db);
  if (!readings) return read(db);
  // The act is asked for first: what is read after a further act counts as older than it is, and is read again.
  const act = await latestAct(db);
  const before = readings.get(name);
  if (before?.act === act) return before.value as Promise<Read>;
  const value = read(db);
  readings.set(name, { act, value });
  // What could not be read is asked for again next time.
  value.catch(() => readings.delete(name));
  return value;
}

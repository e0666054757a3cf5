import type { HeldNote, Holdings } from '@keelrow/server/contract';
import { grouped } from './grouped.ts';
import type { Line } from './line.ts';
import type { PhoneDatabase, PlantRow } from './phone-database.ts';

/** Fetches what changed since the last time, or all; returns whether anything was written. */
export async function fetchHoldings(db: PhoneDatabase, line: Line, now: () => Date): Promise<boolean> {
  const before = (await db.reliably(() => db.held.get('holdings')))?.upTo ?? null;
  return storeHoldings(db, await line.holdings(before), before, now());
}

/**
 * Writes holdings down. since: number of the act from which they were asked; where the phone's holdings have moved on
 * meanwhile (another tab), a part is dropped, as it does not fit.
 */
export async function storeHoldings(
  db: PhoneDatabase,
  holdings: Holdings,
  since: number | null,
  now: Date,
): Promise<boolean> {
  const { whole, plants, notes, gone, ...small } = holdings;
  return db.reliably(() =>
    db.transaction('rw', [db.held, db.plants], async () => {
      const before = (await db.held.get('holdings'))?.upTo ?? null;
      if (!whole && before !== since) return false;
      if (whole) {
        await db.plants.clear();
        await db.plants.bulkPut(withNotes(plants, notes));
      } else await applyChanges(db, holdings);
      await db.held.put({ ...small, key: 'holdings', fetchedAt: now.toISOString() });
      return true;
    }),
  );
}

function withNotes(plants: Holdings['plants'], notes: readonly HeldNote[]): PlantRow[] {
  const byPlant = grouped(notes, ({ plant }) => plant);
  return plants.map((plant) => ({ ...plant, notes: byPlant.get(plant.id) ?? [] }));
}

/** Puts changed plants and notes in place, takes away what is gone. */
async function applyChanges(db: PhoneDatabase, { plants, notes, gone }: Holdings): Promise<void> {
  const forget = new Set(gone);
  if (forget.size > 0) {
    await db.plants.bulkDelete([...forget]);
    const touched = await db.plants.filter((row) => row.notes.some(({ id }) => forget.has(id))).toArray();
    await db.plants.bulkPut(
      touched.map((row) => ({ ...row, notes: row.notes.filter(({ id }) => !forget.has(id)) })),
    );
  }
  const newNotes = grouped(notes, ({ plant }) => plant);
  const ids = [...new Set([...plants.map(({ id }) => id), ...newNotes.keys()])];
  const there = await db.plants.bulkGet(ids);
  const changed = new Map(plants.map((plant) => [plant.id, plant]));
  const rows = ids.flatMap((id, i) => {
    const plant = changed.get(id) ?? there[i];
    if (!plant) return [];
    const fresh = newNotes.get(id) ?? [];
    const freshIds = new Set(fresh.map((note) => note.id));
    const kept = (there[i]?.notes ?? []).filter((note) => !freshIds.has(note.id));
    return [{ ...plant, notes: [...kept, ...fresh] }];
  });
  await db.plants.bulkPut(rows);
}

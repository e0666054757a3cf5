import type { HeldPlant } from '@keelrow/server/contract';
import { liveQuery, type Subscription } from 'dexie';
import { useSyncExternalStore } from 'react';
import { todayIn } from '../api/kept-programme.ts';
import type { KeptFact } from './facts.ts';
import { grouped } from './grouped.ts';
import { type LatestNotes, latestOf, type NoteInHand, NotesEntered } from './notes-in-hand.ts';
import type { HoldingsRow, PlantRow } from './phone-database.ts';
import { phone } from './store.ts';

/** All that a walk needs, from the phone's disk, with what was entered here laid over it. */
export interface HoldingsInHand
  extends Pick<
    HoldingsRow,
    'settings' | 'person' | 'places' | 'traits' | 'briefs' | 'crosses' | 'fetchedAt'
  > {
  /** Today in the garden's time zone, by the phone's clock, but never before the day of the last fetching. */
  readonly today: string;
  /** Plants in a bed or place, in walking order. */
  plantsInBed(bed: string): readonly HeldPlant[];
  plant(id: string): HeldPlant | null;
  /** By its code, case ignored. */
  plantByCode(code: string): HeldPlant | null;
  /** Codes that end so, case ignored; for typing the tail of a label. */
  plantsByTail(tail: string): readonly HeldPlant[];
  latest(plant: string, trait: string): LatestNotes;
  /** Standing notes on a plant of this and the last three seasons. */
  notesOn(plant: string): readonly NoteInHand[];
}

interface Garden {
  readonly held: HoldingsRow;
  readonly byId: ReadonlyMap<string, PlantRow>;
  readonly byCode: ReadonlyMap<string, PlantRow>;
  readonly byBed: ReadonlyMap<string, readonly PlantRow[]>;
}

let garden: Garden | null | undefined;
let facts: readonly KeptFact[] = [];
let inHand: HoldingsInHand | null = null;
const listeners = new Set<() => void>();
let following: Subscription[] = [];

async function readGarden(): Promise<Garden | null> {
  const { db } = phone;
  return db.reliably(() =>
    db.transaction('r', [db.held, db.plants], async () => {
      const held = await db.held.get('holdings');
      if (!held) return null;
      const plants = await db.plants.toArray();
      const byBed = grouped(plants, ({ bed }) => bed ?? '');
      for (const inBed of byBed.values()) inBed.sort(inWalkingOrder);
      return {
        held,
        byId: new Map(plants.map((plant) => [plant.id, plant])),
        byCode: new Map(plants.map((plant) => [plant.code.toUpperCase(), plant])),
        byBed,
      };
    }),
  );
}

const byCodes = new Intl.Collator('en', { numeric: true });
const inWalkingOrder = (a: HeldPlant, b: HeldPlant): number =>
  (a.walk ?? Number.POSITIVE_INFINITY) - (b.walk ?? Number.POSITIVE_INFINITY) ||
  byCodes.compare(a.code, b.code);

function follow(): void {
  const { db } = phone;
  following = [
    // The garden is large: it is read anew only when it was fetched anew.
    liveQuery(() => db.held.get('holdings')).subscribe({
      next: (held) => {
        if (garden && held && garden.held.fetchedAt === held.fetchedAt) return;
        void readGarden().then((read) => {
          garden = read;
          lay();
          if (!read) void phone.fetchHoldings().catch(() => undefined);
        });
      },
    }),
    liveQuery(() => db.facts.orderBy('order').toArray()).subscribe({
      next: (read) => {
        facts = read;
        lay();
      },
    }),
  ];
}

function lay(): void {
  inHand = garden ? laidOver(garden, facts) : null;
  for (const listener of listeners) listener();
}

function laidOver({ held, byId, byCode, byBed }: Garden, entered: readonly KeptFact[]): HoldingsInHand {
  const notes = new NotesEntered(entered, held.upTo, byId, held.traits, held.person.code);
  const today = todayIn(held.settings.timeZone, held.today);
  const notesOn = (id: string): readonly NoteInHand[] => {
    const plant = byId.get(id);
    return plant ? notes.on(plant) : [];
  };
  return {
    ...held,
    today,
    plantsInBed: (bed) => byBed.get(bed) ?? [],
    plant: (id) => byId.get(id) ?? null,
    plantByCode: (code) => byCode.get(code.toUpperCase()) ?? null,
    plantsByTail: (tail) => {
      const end = tail.toUpperCase();
      return [...byCode].flatMap(([code, plant]) => (code.endsWith(end) ? [plant] : []));
    },
    latest: (plant, trait) => latestOf(notesOn(plant), trait, today),
    notesOn,
  };
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  if (following.length === 0) follow();
  return () => {
    listeners.delete(listener);
    if (listeners.size > 0) return;
    for (const one of following) one.unsubscribe();
    following = [];
  };
}

/** Null while the phone holds no garden; the first to look has it fetched. */
export const useHoldings = (): HoldingsInHand | null => useSyncExternalStore(subscribe, () => inHand);

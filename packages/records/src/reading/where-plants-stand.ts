import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';

/** Where a plant stands: a place (its id), its number in walking order and its distances from the bed's corner. */
interface Standing {
  readonly place: string | null;
  readonly walk: number | null;
  readonly eastM: number | null;
  readonly northM: number | null;
}

/** Tells where a plant stands now, and where it stood on a day. */
export interface Places {
  now(plant: string): Standing;
  on(plant: string, day: string): Standing;
  /** The bed and the site of a place: the nearest outer place of that sort, or itself. */
  bedOf(place: string | null): string | null;
  siteOf(place: string | null): string | null;
  readonly code: ReadonlyMap<string, string>;
  readonly name: ReadonlyMap<string, string | null>;
}

const nowhere: Standing = { place: null, walk: null, eastM: null, northM: null };

/** Reads places, plantings and moves; the latest move up to a day counts. */
export const readPlaces = (db: Kysely<Tables>): Promise<Places> => untilNextAct(db, 'places', placesNow);

async function placesNow(db: Kysely<Tables>): Promise<Places> {
  const places = await db.selectFrom('places').select(['id', 'code', 'name', 'sort', 'within']).execute();
  const byId = new Map(places.map((place) => [place.id, place]));
  const plants = await db.selectFrom('plants').select(['id', 'place', 'walk', 'east_m', 'north_m']).execute();
  const planted = new Map(
    plants.map(({ id, place, walk, east_m, north_m }) => [
      id,
      { place, walk, eastM: east_m, northM: north_m },
    ]),
  );
  const moves = await db
    .selectFrom('moves')
    .select(['plant', 'on', 'place', 'walk', 'east_m', 'north_m'])
    .where('ended_act', 'is', null)
    .orderBy('on')
    .orderBy('id')
    .execute();
  const movesOf = new Map<string, { on: string; to: Standing }[]>();
  for (const { plant, on, place, walk, east_m, north_m } of moves) {
    const list = movesOf.get(plant) ?? [];
    list.push({ on, to: { place, walk, eastM: east_m, northM: north_m } });
    movesOf.set(plant, list);
  }
  const outer = (place: string | null, sorts: readonly string[]): string | null => {
    let here = place;
    for (let steps = 0; here !== null && steps < 20; steps++) {
      const found = byId.get(here);
      if (!found || sorts.includes(found.sort)) return found ? here : null;
      here = found.within;
    }
    return null;
  };
  return {
    now: (plant) => movesOf.get(plant)?.at(-1)?.to ?? planted.get(plant) ?? nowhere,
    on: (plant, day) =>
      movesOf.get(plant)?.findLast(({ on }) => on <= day)?.to ?? planted.get(plant) ?? nowhere,
    bedOf: (place) => outer(place, ['bed', 'house']),
    siteOf: (place) => outer(place, ['site']),
    code: new Map(places.map(({ id, code }) => [id, code])),
    name: new Map(places.map(({ id, name }) => [id, name])),
  };
}

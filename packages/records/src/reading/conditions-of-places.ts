import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import type { Places } from './where-plants-stand.ts';

/** Light and moisture of a place, as far as they were recorded. */
export interface Conditions {
  readonly light: string | null;
  readonly moisture: string | null;
}

/** Reads light and moisture of places: the latest record up to a day counts, of the place itself, else of its bed. */
export async function readConditions(
  db: Kysely<Tables>,
  places: Places,
): Promise<(place: string | null, day: string) => Conditions> {
  const rows = await db
    .selectFrom('place_conditions')
    .select(['place', 'on', 'light', 'moisture'])
    .where('ended_act', 'is', null)
    .orderBy('on')
    .orderBy('id')
    .execute();
  const byPlace = new Map<string, typeof rows>();
  for (const row of rows) {
    const list = byPlace.get(row.place);
    if (list) list.push(row);
    else byPlace.set(row.place, [row]);
  }
  const latest = (place: string | null, day: string, what: 'light' | 'moisture') =>
    (place === null ? undefined : byPlace.get(place))?.findLast(
      (row) => row.on <= day && row[what] !== null,
    )?.[what] ?? null;
  return (place, day) => {
    const bed = places.bedOf(place);
    const of = (what: 'light' | 'moisture') => latest(place, day, what) ?? latest(bed, day, what);
    return { light: of('light'), moisture: of('moisture') };
  };
}

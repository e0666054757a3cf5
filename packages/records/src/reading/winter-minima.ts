import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';

/** A winter with fewer days of weather than this may have missed its coldest. */
const fewestDays = 120;

/** First and last day of the winter that ends in a year: November to June, south of the equator May to December. */
export function winterOf(year: number, southern: boolean): { begin: string; end: string } {
  return southern
    ? { begin: `${year}-05-01`, end: `${year}-12-30` }
    : { begin: `${year - 1}-11-01`, end: `${year}-06-30` };
}

/** The lowest temperature of winters, by site. */
export interface WinterMinima {
  isSouthern(site: string | null): boolean;
  /** °C; of the only site with weather where the plant's has none. Null where too few days are known. */
  minimum(site: string | null, year: number): number | null;
}

export async function readWinterMinima(db: Kysely<Tables>): Promise<WinterMinima> {
  const sites = await db
    .selectFrom('places')
    .select(['id', 'latitude'])
    .where('sort', '=', 'site')
    .where('ended_act', 'is', null)
    .execute();
  const southern = new Set(
    sites.flatMap(({ id, latitude }) => (latitude !== null && latitude < 0 ? [id] : [])),
  );
  const days = await db
    .selectFrom('weather')
    .select(['site', 'on', 'tmin_c'])
    .where('tmin_c', 'is not', null)
    .where('ended_act', 'is', null)
    .execute();
  const found = new Map<string, { days: number; minimum: number }>();
  for (const { site, on, tmin_c } of days) {
    const year = Number(on.slice(0, 4));
    for (const winter of [year, year + 1]) {
      const { begin, end } = winterOf(winter, southern.has(site));
      if (on < begin || on > end || tmin_c === null) continue;
      const key = JSON.stringify([site, winter]);
      const known = found.get(key) ?? { days: 0, minimum: Infinity };
      found.set(key, { days: known.days + 1, minimum: Math.min(known.minimum, tmin_c) });
    }
  }
  const withWeather = [...new Set(days.map(({ site }) => site))];
  return {
    isSouthern: (site) => site !== null && southern.has(site),
    minimum(site, year) {
      const own = site !== null && withWeather.includes(site) ? site : null;
      const taken = own ?? (withWeather.length === 1 ? withWeather[0]! : null);
      const winter = found.get(JSON.stringify([taken, year]));
      return winter && winter.days >= fewestDays ? winter.minimum : null;
    },
  };
}

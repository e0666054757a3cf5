import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Programme } from '../programme/programme.ts';
import { sitePlaces, sites } from '../scenario/sites.ts';

export function* placeRows({ plan }: Programme): Generator<Row<'places'>> {
  for (const place of sitePlaces) {
    // A large programme needs a longer field than the usual one.
    const ends = plan.beds
      .filter(({ site }) => site.code === place.code)
      .map(({ east, length }) => east + length + 2);
    yield ends.length > 0 ? { ...place, length_m: Math.max(place.length_m ?? 0, ...ends) } : place;
  }
  for (const [index, bed] of plan.beds.entries()) {
    yield {
      code: bed.code,
      name: bed.name,
      sort: 'bed',
      within: bed.site.code,
      east_m: bed.east,
      north_m: bed.north,
      length_m: bed.length,
      width_m: bed.width,
      turned: 0,
      walk: index + 1,
    };
  }
}

export function* conditionRows(
  { plan, scale }: Programme,
  random: Random,
): Generator<Row<'place-conditions'>> {
  for (const bed of plan.beds) {
    const on = dayOf(bed.madeIn, 3, 1);
    yield {
      id: factId(random, on),
      place: bed.code,
      on: dateText(on),
      light: bed.lateness > 1.012 ? 'part shade' : 'full sun',
      moisture: bed.damp ? 'moist' : 'fresh',
      soil: bed.richness > 1 ? 'loam over gravel' : 'thin sandy loam',
      ph: Math.round((6.3 + 4 * (bed.richness - 1)) * 10) / 10,
      remark: bed.damp ? `damp at the ${bed.damp.east === 0 ? 'west' : 'east'} end` : null,
    };
    const later = dayOf(bed.madeIn + 2, 3, 10);
    if (bed.sort === 'stock' && later <= scale.today) {
      yield {
        id: factId(random, later),
        place: bed.code,
        on: dateText(later),
        light: 'part shade',
        remark: 'the hedge has grown',
      };
    }
  }
}

/** Days of weather of both sites, up to yesterday. The home station failed for six days; the hill station has holes. */
export function* weatherRows({ climate, scale }: Programme, random: Random): Generator<Row<'weather'>> {
  const failed = dayOf(scale.startYear + 1, 11, 3);
  for (const { code } of sites) {
    const { first, lowest, highest, rain } = climate.weather[code];
    const start = code === 'home' ? first : dayOf(scale.startYear, 2, 20);
    for (let day = start; day < scale.today; day++) {
      const at = day - first;
      const filled = code === 'home' && day >= failed && day < failed + 6;
      if (code === 'hill' && random.uniform() < 0.012) continue;
      yield {
        id: factId(random, day),
        site: code,
        on: dateText(day),
        tmin_c: filled ? Math.round((climate.weather.hill.lowest[at]! + 1.1) * 10) / 10 : lowest[at]!,
        tmax_c: filled ? Math.round((climate.weather.hill.highest[at]! + 1.1) * 10) / 10 : highest[at]!,
        rain_mm: filled ? null : rain[at]!,
        from_where: filled ? 'filled' : 'own station',
        remark: filled ? 'from the hill station, 1.1 °C warmer' : null,
      };
    }
  }
}

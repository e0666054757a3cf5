import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { type Day, dateText, timeText } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Programme } from '../programme/programme.ts';

export function* crossRows({ crosses }: Programme): Generator<Row<'crosses'>> {
  for (const cross of crosses) {
    yield {
      code: cross.code,
      seed_parent: cross.seedParents,
      pollen_parent: cross.pollenParents,
      sort: cross.sort,
      made_on: dateText(cross.madeOn),
      brief: cross.brief,
      tag: cross.tag,
      remark: cross.remark,
    };
  }
}

export function* pollenLotRows({ pollenLots }: Programme): Generator<Row<'pollen-lots'>> {
  for (const { code, plant, collected } of pollenLots) {
    yield {
      code,
      genet: plant.label.code,
      plant: plant.code,
      collected_on: dateText(collected),
      stored: 'over silica gel, sealed',
      temperature_c: 4,
    };
  }
}

/** How quickly stored pollen dies: half of it in so many days at 4 °C. Invented. */
export const pollenHalfLife = 24;

export function* pollenTestRows(
  { pollenLots, scale }: Programme,
  random: Random,
): Generator<Row<'pollen-tests'>> {
  for (const { code, collected } of pollenLots) {
    const fresh = random.beta(14, 5);
    for (const age of [0, 9, 21, 40]) {
      const on = collected + age;
      if (on > scale.today || random.uniform() < 0.25) continue;
      yield {
        id: factId(random, on),
        pollen_lot: code,
        on: dateText(on),
        counted: 200,
        germinated: random.binomial(200, fresh * 0.5 ** (age / pollenHalfLife)),
        medium: 'sucrose 15%, boron',
        by: 'MK',
      };
    }
  }
}

/** The days on which the flowers of a cross made by hand were worked. */
export function* pollinationRows(
  programme: Programme,
  random: Random,
): Generator<Row<'pollinations'> & { id: string }> {
  for (const cross of programme.crosses) {
    if (!cross.pollenPlant) continue;
    const own = random.fork(cross.code);
    for (let k = 0, on: Day = cross.madeOn; k < 1 + own.integer(3); k++, on += 1 + own.integer(3)) {
      const bagOff = on + 6 + own.integer(4);
      const id = factId(own, on);
      if (on > programme.scale.today) break;
      yield {
        id,
        cross: cross.code,
        on: dateText(on),
        at: timeText(7 * 60 + own.integer(200)),
        seed_plant: cross.seedPlant.code,
        pollen_plant: cross.pollenLot ? null : cross.pollenPlant.code,
        pollen_lot: cross.pollenLot?.code ?? null,
        florets: 8 + own.integer(30),
        emasculated: cross.sort !== 'selfed',
        bagged: own.uniform() < 0.9,
        bag_off_on: bagOff <= programme.scale.today ? dateText(bagOff) : null,
        tag: cross.tag,
        weather: own.pick(['dry, light wind', 'dull, still', 'warm, bees about', 'cool, dew late']),
        by: own.uniform() < 0.7 ? 'MK' : 'IQ',
      };
    }
  }
}

import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { type Day, dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Programme } from '../programme/programme.ts';
import type { SeedLot } from '../programme/things.ts';

export function* seedLotRows({ lots }: Programme): Generator<Row<'seed-lots'>> {
  for (const lot of lots) {
    yield {
      code: lot.code,
      cross: lot.cross?.code ?? null,
      seed_parent: lot.cross?.seedPlant.label.code ?? null,
      accession: lot.accession,
      harvested_on: dateText(lot.harvested),
      seeds: lot.seeds,
      weight_g: lot.weight,
      thousand_seed_weight_g: Math.round((1e4 * lot.weight) / lot.seeds) / 10,
      stored: 'paper in a tin, refrigerator',
      moisture: 7,
      temperature_c: 4,
      never_sow_last: lot.accession ? 20 : null,
    };
  }
}

export function* harvestRows({ lots }: Programme, random: Random): Generator<Row<'harvests'>> {
  for (const lot of lots) {
    const gathered = Math.max(1, Math.round(lot.seeds / 5));
    yield {
      id: factId(random, lot.harvested),
      cross: lot.cross?.code ?? null,
      accession: lot.accession,
      on: dateText(lot.harvested),
      pods_set: gathered + random.poisson(2),
      pods_gathered: gathered,
      seeds: lot.seeds,
      spoiled: random.poisson(0.2 * lot.seeds),
      weight_g: lot.weight,
      seed_lot: lot.code,
      by: random.uniform() < 0.6 ? 'TA' : 'MK',
    };
  }
}

export function* sowingRows({ sowings }: Programme): Generator<Row<'sowings'>> {
  for (const { code, lot, on, seeds } of sowings) {
    yield {
      code,
      seed_lot: lot.code,
      on: dateText(on),
      seeds,
      treatment: 'nicked, soaked 12 h',
      place: 'glasshouse',
    };
  }
}

export function* sowingCountRows(programme: Programme, random: Random): Generator<Row<'sowing-counts'>> {
  const alive = new Map<string, { spring: number; flowered: number }>();
  for (const plant of programme.plants) {
    const { sowing } = plant.label;
    if (!sowing || plant.role !== 'seedling') continue;
    const count = alive.get(sowing.code) ?? { spring: 0, flowered: 0 };
    const year = plant.label.raisedIn + 1;
    if (plant.gone === null || plant.gone > dayOf(year, 5, 1)) {
      count.spring += 1;
      if (dayOf(year, 6, 20) <= programme.scale.today && programme.grower.grow(plant, year).flowers)
        count.flowered += 1;
    }
    alive.set(sowing.code, count);
  }
  for (const sowing of programme.sowings) {
    const year = Number(dateText(sowing.on).slice(0, 4));
    const count = alive.get(sowing.code) ?? { spring: 0, flowered: 0 };
    const counts: [Day, Row<'sowing-counts'>['stage'], number, string | null][] = [
      [sowing.on + 24, 'came up', sowing.cameUp, null],
      [sowing.on + 38, 'pricked out', sowing.prickedOut, 'damping off'],
      [
        dayOf(year, 5, 24),
        'planted',
        sowing.planted,
        sowing.planted < sowing.prickedOut ? 'no room for the rest' : null,
      ],
      [dayOf(year + 1, 5, 3), 'alive in spring', count.spring, 'first winter'],
      [dayOf(year + 1, 6, 20), 'flowered', count.flowered, null],
    ];
    for (const [on, stage, number, cause] of counts) {
      if (on > programme.scale.today || random.uniform() < 0.06) continue;
      yield {
        id: factId(random, on),
        sowing: sowing.code,
        on: dateText(on),
        stage,
        count: number,
        cause_of_loss: cause,
        by: 'TA',
      };
    }
  }
}

/** Germination tests of one lot in three, as four replicates counted on four days; nicked seed, and some left as it is. */
export function* germinationRows(
  { lots, scale }: Programme,
  random: Random,
): Generator<Row<'germination-tests'>> {
  for (const lot of lots) {
    const own = random.fork(lot.code);
    if (own.uniform() > 0.35 || lot.seeds < 60) continue;
    const started = dayOf(Number(dateText(lot.harvested).slice(0, 4)), 12, 1) + own.integer(10);
    if (started + 28 > scale.today) continue;
    for (const treatment of own.uniform() < 0.5 ? ['nicked', 'none'] : ['nicked']) {
      const able = treatment === 'nicked' ? lot.germination : lot.germination * 0.4;
      for (let replicate = 1; replicate <= 4; replicate++) {
        const seeds = 10;
        const days = Array.from(
          { length: own.binomial(seeds, able) },
          () => 4 + own.gamma(3, treatment === 'nicked' ? 2 : 3.5),
        );
        for (const day of [7, 14, 21, 28]) {
          yield {
            id: factId(own, started + day),
            seed_lot: lot.code,
            started_on: dateText(started),
            treatment,
            replicate,
            seeds,
            day,
            germinated: days.filter((each) => each <= day).length,
            temperature_c: 18,
            light: 'dark',
            by: 'MK',
          };
        }
      }
    }
  }
}

export function* movementRows(
  { lots, sowings, scale }: Programme,
  random: Random,
): Generator<Row<'seed-movements'>> {
  const left = new Map<SeedLot, number>(lots.map((lot) => [lot, lot.seeds]));
  for (const { lot, on, seeds } of sowings) {
    left.set(lot, left.get(lot)! - seeds);
    yield {
      id: factId(random, on),
      seed_lot: lot.code,
      on: dateText(on),
      seeds: -seeds,
      why: 'sown',
      by: 'TA',
    };
  }
  for (const lot of lots) {
    const rest = left.get(lot)!;
    const on = lot.harvested + 60 + random.integer(60);
    if (rest < 30 || on > scale.today || random.uniform() > 0.3) continue;
    yield {
      id: factId(random, on),
      seed_lot: lot.code,
      on: dateText(on),
      seeds: -Math.min(20, rest - 10),
      why: 'given',
      to_whom: 'Alder County seed exchange',
      by: 'MK',
      remark: 'will vary',
    };
  }
}

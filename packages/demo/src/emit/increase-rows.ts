import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { type Day, dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import { returned } from '../programme/increase.ts';
import type { Programme } from '../programme/programme.ts';

export function* batchRows({ batches, scale }: Programme): Generator<Row<'batches'>> {
  for (const batch of batches) {
    const closed = dayOf(Number(dateText(batch.on).slice(0, 4)) + 1, 6, 1);
    yield {
      code: batch.code,
      genet: batch.genet.code,
      stock_plant: batch.stockPlant.code,
      on: dateText(batch.on),
      sort: 'basal',
      stuck: batch.stuck,
      nodes: 2,
      treatment: batch.treatment,
      concentration: batch.treatment ? '0.3%' : null,
      medium: 'perlite and bark 1:1',
      place: 'frame-1',
      closed_on: closed <= scale.today ? dateText(closed) : null,
    };
  }
}

/** Counts along a batch's way; those with a bud below the surface and those without are counted apart. */
export function* batchCountRows(
  { batches, scale, selected }: Programme,
  random: Random,
): Generator<Row<'batch-counts'>> {
  for (const batch of batches) {
    const own = random.fork(batch.code);
    const year = Number(dateText(batch.on).slice(0, 4));
    const count = (
      on: Day,
      step: Row<'batch-counts'>['step'],
      number: number,
      more: Partial<Row<'batch-counts'>> = {},
    ): Row<'batch-counts'>[] =>
      on > scale.today
        ? []
        : [
            {
              id: factId(own, on),
              batch: batch.code,
              on: dateText(on),
              step,
              count: number,
              by: own.uniform() < 0.5 ? 'TA' : 'MK',
              ...more,
            },
          ];
    const rootedOn = batch.on + 40 + own.integer(10);
    yield* count(rootedOn, 'rooted', batch.rooted, {
      cause_of_loss: batch.rooted < batch.stuck ? 'rot' : null,
    });
    for (const [group, bud] of [
      [batch.withBud, true],
      [batch.withoutBud, false],
    ] as const) {
      if (group.potted === 0) continue;
      const grouped = { bud_below: bud, depth_cm: 1.2 };
      yield* count(rootedOn + 12, 'potted on', group.potted, grouped);
      if (own.uniform() < 0.8)
        yield* count(dayOf(year, 8, 24), 'with a crown bud', group.crownBuds, { bud_below: bud });
      yield* count(dayOf(year, 11, 8), 'into winter', group.intoWinter, { bud_below: bud });
      yield* count(dayOf(year + 1, 3, 28), 'returned in spring', group.returned, {
        bud_below: bud,
        cause_of_loss: group.returned < group.intoWinter ? 'no shoot in spring' : null,
      });
    }
    const sound = returned(batch);
    const kept = selected.has(batch.genet) ? Math.min(6, sound) : Math.min(2, sound);
    if (sound === 0) continue;
    yield* count(dayOf(year + 1, 5, 20), 'saleable', Math.max(0, own.binomial(sound, 0.93)));
    yield* count(dayOf(year + 1, 5, 20), 'kept as stock', kept);
    const spare = sound - kept;
    if (spare > 0 && own.uniform() < 0.6) yield* count(dayOf(year + 1, 6, 1), 'given', Math.min(spare, 3));
    if (spare > 6 && !selected.has(batch.genet)) yield* count(dayOf(year + 1, 9, 20), 'sold', spare - 3);
  }
}

import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Noted } from '../noting/notebook.ts';
import type { Programme } from '../programme/programme.ts';

/** Every note with what became of it: first those on plants, plant by plant and year by year, then the others. */
export function* allNotes(programme: Programme, random: Random): Generator<Noted> {
  const { plants, notebook, scale } = programme;
  for (const plant of plants) {
    const first = Number(dateText(plant.planted).slice(0, 4));
    for (let year = Math.max(first, scale.startYear); year < scale.startYear + scale.years; year++) {
      if (plant.gone !== null && plant.gone < dayOf(year, 1, 1)) break;
      yield* notebook.notesOf(plant, year);
    }
  }
  for (const row of otherNotes(programme, random)) yield { row };
}

/** Notes on seed lots, crosses, batches and beds. */
function* otherNotes(programme: Programme, random: Random): Generator<Row<'notes'> & { id: string }> {
  const { today } = programme.scale;
  const note = (day: number, on: Partial<Row<'notes'>>, trait: string, value: number | string) => ({
    id: factId(random, day),
    ...on,
    trait,
    on: dateText(day),
    state: 'seen' as const,
    value,
    by: 'MK',
  });
  for (const lot of programme.lots) {
    const day = lot.harvested + 8;
    if (day > today || random.uniform() > 0.4) continue;
    yield note(
      day,
      { seed_lot: lot.code },
      'thousand-seed-weight',
      Math.round((1e4 * lot.weight) / lot.seeds) / 10,
    );
    yield note(day, { seed_lot: lot.code }, 'seed-length', Math.round(10 * random.normal(4, 0.3)) / 10);
  }
  for (const cross of programme.crosses) {
    const day = cross.madeOn + 12;
    if (day > today || random.uniform() > 0.2) continue;
    const seen = random.pick([
      'pods swelling on the lower half',
      'bag torn by wind',
      'aphids under the bag',
      'weevils at the pods',
    ]);
    yield note(day, { cross: cross.code }, 'remark', seen);
  }
  for (const batch of programme.batches) {
    const day = batch.on + 18;
    if (day > today || random.uniform() > 0.15) continue;
    yield note(
      day,
      { batch: batch.code },
      'remark',
      random.pick(['callus on most', 'some leaves drop', 'too wet, aired']),
    );
  }
  for (const bed of programme.plan.beds) {
    const day = dayOf(bed.madeIn + 1, 6, 6);
    if (!bed.damp || day > today) continue;
    yield note(
      day,
      { place: bed.code },
      'remark',
      `water stands at the ${bed.damp.east === 0 ? 'west' : 'east'} end after rain`,
    );
  }
}

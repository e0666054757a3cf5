import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Programme } from '../programme/programme.ts';

export function* trialRows({ trials }: Programme): Generator<Row<'trials'>> {
  for (const trial of trials) {
    yield {
      code: trial.code,
      name: 'Selections against three standards',
      place: trial.bed.code,
      layout: 'complete blocks',
      planted_on: dateText(trial.planted),
      seed: trial.seed,
    };
  }
}

export function* trialEntryRows({ trials }: Programme): Generator<Row<'trial-entries'>> {
  for (const trial of trials) {
    for (const { plant, replicate } of trial.entries) {
      const { bed, east, north } = plant.spot;
      yield {
        trial: trial.code,
        genet: plant.label.code,
        plant: plant.code,
        replicate,
        block: replicate,
        row: Math.floor((north * bed.rows) / bed.width) + 1,
        column: Math.floor(east / bed.spacing) + 1,
        standard: plant.label.standard,
      };
    }
  }
}

/** Open days each June show the selections; a few are lent, given and in the end offered for sale. */
export function* disclosureRows(
  { selected, batches, scale }: Programme,
  random: Random,
): Generator<Row<'disclosures'>> {
  const stuckIn = new Map(
    batches.map(({ genet, on }) => [genet, Number(dateText(on).slice(0, 4))] as const).reverse(),
  );
  const steps = [
    ['shown', 'visitors on the open day', 'the garden', 3],
    ['lent for trial', 'Withy Lane Nursery', 'their trial ground', 2],
    ['given', 'Old Toll House garden', '', 3],
    ['offered', 'mail customers', 'autumn list', 4],
  ] as const;
  for (const genet of selected) {
    const year = stuckIn.get(genet);
    if (year === undefined) continue;
    for (const [index, [how, whom, where, after]] of steps.entries()) {
      const on = dayOf(year + after - 1, 6, 3) + index;
      if (on > scale.today || random.uniform() < [0.3, 0.7, 0.85, 0.9][index]!) continue;
      yield {
        id: factId(random, on),
        genet: genet.code,
        on: dateText(on),
        how,
        to_whom: whom,
        where,
        under_terms: how === 'lent for trial' ? 'loan sheet, not to be increased' : null,
        by: 'MK',
      };
    }
  }
}

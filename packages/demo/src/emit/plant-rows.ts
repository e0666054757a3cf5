import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { dateText } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Programme } from '../programme/programme.ts';

export function* genetRows({ genets }: Programme): Generator<Row<'genets'>> {
  for (const genet of genets) {
    if (!genet.recorded) continue;
    yield {
      code: genet.code,
      name: genet.name,
      taxon: genet.taxon,
      accession: genet.accession,
      cross: genet.sowing?.lot.cross?.code ?? null,
      seed_lot: genet.sowing?.lot.code ?? null,
      sowing: genet.sowing?.code ?? null,
      seed_parent: genet.seedParents.length > 0 ? genet.seedParents : null,
      pollen_parent: genet.pollenParents.length > 0 ? genet.pollenParents : null,
      clone_of: genet.cloneOf?.code ?? null,
      founder_group: genet.foundersRecorded,
      origin: genet.origin,
      raised_in: genet.raisedIn,
      standard: genet.standard,
      remark: genet.remark,
    };
  }
}

export function* plantRows({ plants, scale }: Programme): Generator<Row<'plants'>> {
  for (const plant of plants) {
    const { spot } = plant;
    yield {
      code: plant.code,
      genet: plant.label.code,
      place: spot.bed.code,
      walk: spot.walk,
      east_m: spot.east,
      north_m: spot.north,
      planted_on: dateText(plant.planted),
      age_at_planting: plant.ageAtPlanting,
      size_at_planting: plant.size,
      raised_as: plant.raisedAs,
      batch: plant.batch?.code ?? null,
      gone_on: plant.gone !== null && plant.gone <= scale.today ? dateText(plant.gone) : null,
      gone_why: plant.gone !== null && plant.gone <= scale.today ? plant.goneWhy : null,
    };
  }
}

export function* moveRows({ plants, scale }: Programme, random: Random): Generator<Row<'moves'>> {
  for (const { code, moves } of plants) {
    for (const move of moves) {
      if (move.on > scale.today) continue;
      yield {
        id: factId(random, move.on),
        plant: code,
        on: dateText(move.on),
        place: move.bed.code,
        walk: move.walk,
        east_m: move.east,
        north_m: move.north,
        lifted: 'root ball',
        watered_days: move.wateredDays,
        by: move.by,
      };
    }
  }
}

const proof = {
  exchanged: 'colour and height fit the neighbour’s label, not this one',
  'another clone': 'not like its clone-mates',
  'a volunteer took its place': 'a young plant stands beside the dead crown of the old one',
};

export function* identityRows({ wrongLabels }: Programme, random: Random): Generator<Row<'identities'>> {
  for (const { plant, truly, how, foundOut } of wrongLabels) {
    if (foundOut === null) continue;
    yield {
      id: factId(random, foundOut),
      plant: plant.code,
      genet: truly.code,
      on: dateText(foundOut),
      earlier_notes: how === 'a volunteer took its place' ? 'stay' : 'move',
      by: 'MK',
      remark: proof[how],
    };
  }
}

export function* decisionRows({ decisions, scale }: Programme, random: Random): Generator<Row<'decisions'>> {
  for (const { on, plant, genet, cross, decision, reason, by } of decisions) {
    if (on > scale.today) continue;
    yield {
      id: factId(random, on),
      plant: plant?.code ?? null,
      genet: genet?.code ?? null,
      cross: cross?.code ?? null,
      on: dateText(on),
      decision,
      reason,
      proposed: by !== 'MK' && decision === 'discard' && random.uniform() < 0.2,
      by,
    };
  }
}

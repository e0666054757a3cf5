import { dayOf } from '../calendar.ts';
import { seedlingGenome } from '../genetics/meiosis.ts';
import { hybridTaxon } from '../scenario/origins.ts';
import type { Programme } from './programme.ts';
import { growing, type Plant } from './things.ts';

/**
 * What the winter before this spring took: by the genet's hardiness, the lowest temperature, damp, and whether it was
 * the plant's first winter in its place. Now and then a volunteer grows on under the dead plant's label.
 */
export function winterLosses(programme: Programme, year: number): void {
  const random = programme.random.fork(`winter before ${year}`);
  const { winterLow } = programme.climate.seasons.get(year)!;
  for (const plant of programme.living(dayOf(year, 1, 1))) {
    const genet = growing(plant, year).number;
    const age = year - Number(plant.planted >= dayOf(year - 1, 3, 1) ? year - 1 : year - 2);
    const firstWinter = age === 1;
    const logit =
      programme.bank.total(genet, 'winter') +
      (firstWinter ? -0.6 : 0.7) -
      0.18 * Math.max(0, -8 - winterLow) -
      (plant.spot.bed.damp ? 0.3 : 0);
    if (random.uniform() < 1 / (1 + Math.exp(-logit))) continue;
    if (plant.role === 'seedling' && plant.usurper === null && random.uniform() < 0.03)
      usurp(programme, plant, year);
    else {
      plant.gone = dayOf(year, 4, 2) + random.integer(24);
      plant.goneWhy = 'did not come up';
    }
  }
}

/** A volunteer, child of two plants of the bed, grows where the plant died, and nobody sees the difference. */
function usurp(programme: Programme, plant: Plant, year: number): void {
  const random = programme.random.fork(`volunteer for ${plant.number}`);
  const around = plant.spot.bed.plants.filter((each) => each.gone === null);
  const [seed, pollen] = [growing(random.pick(around), year - 1), growing(random.pick(around), year - 1)];
  const genet = programme.addGenet(
    seedlingGenome(random, programme.bank.genome(seed.number), programme.bank.genome(pollen.number)),
    {
      code: programme.code('U', year),
      taxon: hybridTaxon,
      seedParents: guess(random.pick(around), random.pick(around)),
      trueSeed: seed,
      truePollen: pollen,
      origin: 'volunteer',
      raisedIn: year,
      recorded: false,
      remark: 'grew under another plant’s label',
    },
  );
  plant.usurper = { from: year, genet };
  programme.wrongLabels.push({
    plant,
    truly: genet,
    from: year,
    how: 'a volunteer took its place',
    foundOut: null,
  });
}

/** Parents that somebody might guess for a volunteer: two plants near it. */
export function guess(one: Plant, other: Plant): { genet: string; chance: number }[] {
  if (one.label === other.label) return [{ genet: one.label.code, chance: 0.6 }];
  return [
    { genet: one.label.code, chance: 0.5 },
    { genet: other.label.code, chance: 0.25 },
  ];
}

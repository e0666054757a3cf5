import type { Day } from '../calendar.ts';
import { dayOf } from '../calendar.ts';
import type { Programme } from './programme.ts';
import { growing, type Plant, spotOn } from './things.ts';

/** A plant in flower: from when to when, and with how many spikes. */
export interface Flowering {
  readonly plant: Plant;
  readonly from: Day;
  readonly to: Day;
  readonly spikes: number;
  /** Place on the site in metres. */
  readonly east: number;
  readonly north: number;
}

/**
 * Plants in flower this year that the breeders could work with: all that they watch closely, and a share of the
 * seedlings where there are very many.
 */
export function inFlower(programme: Programme, year: number): Flowering[] {
  const random = programme.random.fork(`in flower in ${year}`);
  const living = programme.living(dayOf(year, 5, 15));
  const seedlings = living.filter(({ role, keptFrom }) => role === 'seedling' && keptFrom === null);
  const few = seedlings.length <= 600 ? seedlings : random.shuffle(seedlings).slice(0, 600);
  const watched = living.filter(({ role, keptFrom }) => role !== 'seedling' || keptFrom !== null);
  const enough = watched.length <= 1500 ? watched : random.shuffle(watched).slice(0, 1500);
  return [...enough, ...few].flatMap((plant) => {
    const { stages, values, spot } = programme.grower.grow(plant, year);
    const { 'first-flower': from, 'end-of-flower': to } = stages;
    if (from === null || to === null) return [];
    const { bed } = spot;
    return [
      {
        plant,
        from,
        to,
        spikes: values['spike-count'],
        east: bed.east + spot.east,
        north: bed.north + spot.north,
      },
    ];
  });
}

/** Days on which both are in flower. */
export const overlap = (a: Flowering, b: Flowering): number =>
  Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from) + 1);

/** How far bees carry pollen here, on average, in metres. Invented: no figure is published for this use. */
const flight = 3;
const selfShare = 0.08;
const outsiderShare = 0.07;

/** The true fathers of seed that bees set on a plant: in proportion to flowers, days together and nearness. */
export function fathersFor(mother: Flowering, others: readonly Flowering[], year: number) {
  const site = spotOn(mother.plant, mother.from).bed.site;
  const near = others
    .filter((other) => other.plant !== mother.plant && spotOn(other.plant, other.from).bed.site === site)
    .map((other) => {
      const distance = Math.hypot(other.east - mother.east, other.north - mother.north);
      return { other, weight: other.spikes * overlap(mother, other) * Math.exp(-distance / flight) };
    })
    .filter(({ weight }) => weight > 0)
    .sort((a, b) => b.weight - a.weight)
    .slice(0, 40);
  const sum = near.reduce((total, { weight }) => total + weight, 0);
  const bees = sum > 0 ? 1 - selfShare - outsiderShare : 0;
  return {
    near: near.map(({ other, weight }) => ({ other, weight: (bees * weight) / sum })),
    fathers: [
      ...near.map(({ other, weight }) => ({
        genet: growing(other.plant, year),
        weight: (bees * weight) / sum,
      })),
      { genet: growing(mother.plant, year), weight: selfShare },
      { genet: null, weight: sum > 0 ? outsiderShare : 1 - selfShare },
    ],
  };
}

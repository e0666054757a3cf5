import { dayOf } from '../calendar.ts';
import { watchOf } from '../noting/attention.ts';
import type { Programme } from './programme.ts';
import { growing, type Plant } from './things.ts';

/** Chance that a seedling's label is exchanged with its neighbour's at planting (two plants are wrong each time). */
const exchangeRate = 0.009;

/** Exchanges some labels of this year's seedlings with those of plants next to them. */
export function exchangeLabels(programme: Programme, year: number): void {
  const random = programme.random.fork(`labels of ${year}`);
  for (const bed of programme.plan.beds.filter(
    ({ sort, madeIn }) => sort === 'seedling' && madeIn === year,
  )) {
    for (let k = 0; k + 1 < bed.plants.length; k++) {
      const [a, b] = [bed.plants[k]!, bed.plants[k + 1]!];
      if (random.uniform() >= exchangeRate || a.role !== 'seedling' || b.role !== 'seedling') continue;
      [a.truly, b.truly] = [b.truly, a.truly];
      for (const plant of [a, b]) {
        programme.wrongLabels.push({
          plant,
          truly: plant.truly,
          from: year,
          how: 'exchanged',
          foundOut: null,
        });
      }
      k++;
    }
  }
}

/** Wrong labels that came to light this summer: a plant watched closely soon looks wrong, another seldom. */
export function findOutLabels(programme: Programme, year: number): void {
  const random = programme.random.fork(`found out in ${year}`);
  for (const wrong of programme.wrongLabels) {
    const { plant } = wrong;
    if (wrong.foundOut !== null || plant.gone !== null) continue;
    const watch = watchOf(programme.grower.grow(plant, year));
    const chance = watch === 'closely' ? 0.35 : watch === 'as a seedling' ? 0.1 : 0;
    const on = dayOf(year, 6, 1) + random.integer(30);
    if (random.uniform() >= chance || on > programme.scale.today) continue;
    wrong.foundOut = on;
    wrong.truly.recorded = true;
    if (wrong.how === 'a volunteer took its place') rogueOut(programme, plant, on);
    // Who finds one of two exchanged labels finds the other.
    const other = programme.wrongLabels.find(
      (each) =>
        each.how === 'exchanged' &&
        wrong.how === 'exchanged' &&
        each.truly === plant.label &&
        each.plant.label === growing(plant, year),
    );
    if (other && other.foundOut === null && other.plant.gone === null) other.foundOut = on;
  }
}

/** A volunteer found out is taken out unless somebody has taken to it. */
function rogueOut(programme: Programme, plant: Plant, on: number): void {
  if (plant.keptFrom !== null) return;
  programme.decide({ on, plant, decision: 'rogue', reason: 'not the plant on its label', by: 'MK' });
  plant.gone = on + 1;
  plant.goneWhy = 'taken out';
}

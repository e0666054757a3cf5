import type { Random } from '@keelrow/quant';
import { dayOf } from '../calendar.ts';
import { nextSpot } from '../growth/beds.ts';
import { liking } from '../noting/attention.ts';
import type { Noted } from '../noting/notebook.ts';
import { selectionNames } from '../scenario/names.ts';
import type { Programme } from './programme.ts';
import { seasonPlan } from './recipes.ts';
import { type Plant, spotOn } from './things.ts';

/**
 * The year's meeting: from what was noted, and from nothing else, plants are kept, looked at again or given up. Poor
 * plants often go without a decision, as they went without notes.
 */
export function review(programme: Programme, year: number): void {
  const on = dayOf(year, 9, 8);
  if (on > programme.scale.today) return;
  const random = programme.random.fork(`review of ${year}`);
  const seedlings = programme
    .living(on)
    .filter(({ role, label }) => role === 'seedling' && !programme.selected.has(label));
  const judged: Plant[] = [];
  for (const plant of seedlings) {
    const seen = numbersOf(programme.notebook.notesOf(plant, year));
    if (seen.count < 2) continue;
    const season = year - Number(plant.label.raisedIn);
    const now = liking(seen.means, season);
    plant.liking = (plant.liking * plant.seasons + now) / (plant.seasons + 1);
    plant.seasons += 1;
    judged.push(plant);
  }
  judged.sort((a, b) => b.liking - a.liking);
  for (const [rank, plant] of judged.entries()) {
    decideOn(programme, random, plant, rank / judged.length, on, year);
  }
  for (const plant of seedlings) {
    if (plant.seasons === 0 && year - plant.label.raisedIn >= 2 && random.uniform() < 0.5)
      rogue(programme, random, plant, on + 20);
  }
  select(programme, random, judged, on, year);
  introduce(programme, on, year);
  giveUpCrosses(programme, random, on, year);
}

/** Means of the numbers noted, by trait; corrected notes as corrected, withdrawn ones not at all. */
function numbersOf(notes: readonly Noted[]): { means: Record<string, number>; count: number } {
  const sums = new Map<string, { sum: number; n: number }>();
  for (const { row, replacedBy, withdrawn } of notes) {
    const value = (replacedBy ?? row).value;
    if (withdrawn || typeof value !== 'number') continue;
    const sum = sums.get(row.trait) ?? { sum: 0, n: 0 };
    sums.set(row.trait, { sum: sum.sum + value, n: sum.n + 1 });
  }
  return {
    means: Object.fromEntries([...sums].map(([trait, { sum, n }]) => [trait, sum / n])),
    count: sums.size,
  };
}

const praise = [
  'long full spike',
  'many spikes for its age',
  'a new colour',
  'stands without a stake',
  'clean leaf in a wet year',
];
const blame = [
  'thin spikes',
  'falls over',
  'spotted leaf',
  'nothing new',
  'muddy colour',
  'bare at the foot',
];

function decideOn(
  programme: Programme,
  random: Random,
  plant: Plant,
  rank: number,
  on: number,
  year: number,
): void {
  const by = random.uniform() < 0.8 ? 'MK' : 'TA';
  const season = year - plant.label.raisedIn;
  if (rank < 0.08) {
    plant.keptFrom ??= year + 1;
    programme.decide({ on, plant, decision: 'keep', reason: random.pick(praise), by });
  } else if (rank < 0.3 || season < 2) {
    if (random.uniform() < 0.6) programme.decide({ on, plant, decision: 'look again', by });
  } else {
    const known = random.uniform() < 0.75;
    programme.decide({ on, plant, decision: 'discard', reason: known ? random.pick(blame) : null, by });
    if (random.uniform() < 0.5) rogue(programme, random, plant, on + 15);
  }
}

function rogue(programme: Programme, random: Random, plant: Plant, on: number): void {
  if (plant.keptFrom !== null || on > programme.scale.today) return;
  plant.gone = on + random.integer(20);
  plant.goneWhy = 'taken out';
}

/**
 * The best that were kept are to be increased; what was seen in one season alone counts for less. The best of them get
 * names, and some move to the stock beds.
 */
function select(
  programme: Programme,
  random: Random,
  judged: readonly Plant[],
  on: number,
  year: number,
): void {
  const { startYear, years, times } = programme.scale;
  const number = Math.round(seasonPlan(year - startYear, years - 1).selected * times ** 0.6);
  const standing = (plant: Plant) => (plant.liking * plant.seasons) / (plant.seasons + 0.7);
  const best = judged.filter(({ keptFrom }) => keptFrom !== null).sort((a, b) => standing(b) - standing(a));
  for (const [rank, plant] of best.slice(0, number).entries()) {
    const { label } = plant;
    programme.selected.add(label);
    if (rank < number / 3) label.name ??= selectionNames[programme.serial('selection names') - 1] ?? null;
    programme.decide({
      on: on + 1,
      genet: label,
      decision: 'increase',
      reason: 'among the best of the year',
      by: 'MK',
    });
    if (random.uniform() < 0.4) move(programme, random, plant, dayOf(year, 10, 4) + random.integer(12), year);
  }
}

function move(programme: Programme, random: Random, plant: Plant, on: number, year: number): void {
  const bed = programme.bedWithRoom('stock', year);
  if (spotOn(plant, on).bed === bed) return;
  const spot = nextSpot(bed);
  bed.plants.push(plant);
  plant.moves.push({
    ...spot,
    on,
    by: random.uniform() < 0.5 ? 'MK' : 'TA',
    wateredDays: 7 + random.integer(21),
  });
}

/** In the last autumns the best selection that stands as several plants is to be put on sale. */
function introduce(programme: Programme, on: number, year: number): void {
  if (year - programme.scale.startYear < programme.scale.years - 3) return;
  const stands = [...programme.selected].filter(
    (genet) =>
      programme.plants.filter(({ label, role }) => label === genet && role === 'selection').length >= 3,
  );
  const chosen = stands[year % Math.max(1, stands.length)];
  if (chosen)
    programme.decide({
      on: on + 2,
      genet: chosen,
      decision: 'introduce',
      reason: 'steady over the years',
      by: 'MK',
    });
}

/** Crosses whose seedlings, three summers on, have given nothing. */
function giveUpCrosses(programme: Programme, random: Random, on: number, year: number): void {
  const fruitful = new Set(
    programme.plants.filter(({ keptFrom }) => keptFrom !== null).map(({ label }) => label.sowing?.lot.cross),
  );
  for (const cross of programme.crosses) {
    if (cross.year !== year - 3 || fruitful.has(cross) || random.uniform() < 0.3) continue;
    programme.decide({
      on: on + 2,
      cross,
      decision: 'discard',
      reason: 'nothing better than its parents',
      by: 'MK',
    });
  }
}

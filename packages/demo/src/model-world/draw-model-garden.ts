import type { TraitNote } from '@keelrow/breeding/evaluation';
import { seededRandom } from '@keelrow/quant';
import { crossingRound, founder, type Raised, sport } from './crossing-round.ts';
import { effectDraw } from './joint-effects.ts';
import type { ModelGarden, ModelWorldOptions } from './model-garden.ts';
import { beds, noting, type StandingPlant } from './noting.ts';
import { type DrawnGenet, population } from './population.ts';
import { rankedByNotes } from './selection.ts';

const groups = 3;
const foundersOfAGroup = 14;
const firstSeason = 2019;
const seasonsOfAGeneration = 2;
/** Founders grown as standards, and plants of each. */
const standards = { genets: 3, plants: 4 };
/** Of the genets of a generation: parents of the next; kept after two seasons; of these, grown as several plants. */
const parentsOfARound = 12;
const kept = 0.3;
const multiplied = { share: 0.1, plants: 2 };

/**
 * Draws a garden from the model that evaluations fit: founders of three groups, crosses, selfs, open-pollinated families
 * and sports; normal effects of genets, plants, beds and notes; seasons, ages and people. After each two seasons the
 * breeder keeps, multiplies and crosses the best by his own notes of all traits, and by nothing else: since all notes
 * are kept, that choice does not bias estimates from them (D. B. Rubin 1976, Biometrika 63:581-592).
 */
export function drawModelGarden(options: ModelWorldOptions): ModelGarden {
  const { traits, correlation = 0, gamma = 0.5, seedlings = 130, generations = 4 } = options;
  const random = seededRandom(options.seed).fork('model world');
  const draw = effectDraw(traits, correlation);
  const genets = population(random.fork('inheritance'), draw, groups, gamma);
  const { take, level } = noting(random.fork('notes'), draw, traits);
  const [placing, crossing] = [random.fork('places'), random.fork('crosses')];
  const raised: Raised[] = [];
  const notes: TraitNote[][] = traits.map(() => []);
  let standing: StandingPlant[] = [];

  const plant = (genet: DrawnGenet, planted: number, number: number): void => {
    for (let each = 0; each < number; each++) {
      const id = `${genet.id}-${planted}-${each + 1}`;
      standing.push({ id, genet, bed: placing.integer(beds), planted, luck: draw(placing, 'plant') });
    }
  };
  const bringIn = (round: readonly Raised[], year: number): void => {
    raised.push(...round);
    for (const { genet } of round) plant(genet, year, 1);
  };

  for (let group = 0; group < groups; group++)
    bringIn(
      Array.from({ length: foundersOfAGroup }, () => founder(genets, group)),
      firstSeason - 1,
    );
  const standard = new Set(raised.slice(0, standards.genets).map(({ genet }) => genet.id));
  for (const { genet } of raised.slice(0, standards.genets))
    plant(genet, firstSeason - 1, standards.plants - 1);

  for (let generation = 0; generation < generations; generation++) {
    const planted = firstSeason + seasonsOfAGeneration * generation;
    for (let year = planted; year < planted + seasonsOfAGeneration; year++)
      for (const [t, taken] of take(year, standing).entries()) notes[t]!.push(...taken);
    if (generation === generations - 1) break;
    const ranked = rankedByNotes(notes, [...new Set(standing.map(({ genet }) => genet))]);
    const stays = new Set(ranked.slice(0, Math.round(kept * ranked.length)));
    const last = planted + seasonsOfAGeneration - 1;
    standing = standing.filter(({ genet }) => stays.has(genet) || standard.has(genet.id));
    for (const genet of ranked.slice(0, Math.round(multiplied.share * ranked.length)))
      if (standing.filter((each) => each.genet === genet).length === 1) plant(genet, last, multiplied.plants);
    const parents = ranked.slice(0, parentsOfARound);
    const round = crossingRound(crossing, genets, generation + 1, parents, seedlings);
    bringIn([...round, sport(genets, parents[0]!)], last);
  }

  const byId = new Map(raised.map(({ genet }) => [genet.id, genet]));
  const number = new Map(traits.map(({ name }, t) => [name, t]));
  return {
    notes: new Map(traits.map(({ name }, t) => [name, notes[t]!])),
    pedigree: raised.map(({ entry }) => entry),
    generationOf: (genet) => byId.get(genet)!.generation,
    level: (trait) => level(number.get(trait)!),
    additive: (genet, trait) => byId.get(genet)!.additive[number.get(trait)!]!,
    total(genet, trait) {
      const t = number.get(trait)!;
      const { additive, own } = byId.get(genet)!;
      return additive[t]! + own[t]!;
    },
  };
}

import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { type Day, dateText, dayOf, timeText } from '../calendar.ts';
import type { GeneBank } from '../genetics/gene-bank.ts';
import type { Grower, PlantYear, Stage } from '../growth/plant-year.ts';
import { factId } from '../ids.ts';
import type { Plant } from '../programme/things.ts';
import { type Observer, observers } from '../scenario/people.ts';
import { chances, leaning, liking, type Watch, watchOf } from './attention.ts';
import { notedClass, notedColour, type Petal } from './looks.ts';
import { type Measure, measures, reading } from './measures.ts';
import { slipped } from './slips.ts';
import type { Visit, Visits } from './visits.ts';

/** A note with what later became of it: replaced by another, or withdrawn for a reason. */
export interface Noted {
  readonly row: Row<'notes'> & { readonly id: string };
  readonly replacedBy?: Row<'notes'> & { readonly id: string };
  readonly withdrawn?: string;
}

const stages: readonly Stage[] = ['emergence', 'first-flower', 'full-flower', 'end-of-flower', 'ripe-pods'];

/**
 * What the people wrote down of a plant in a year. It depends on nothing but the seed, the plant and the year, so
 * that notes can be made twice, once for the breeders' choices and once for the records, without being kept.
 */
export class Notebook {
  private readonly random: Random;
  private readonly bank: GeneBank;
  private readonly grower: Grower;
  private readonly visits: Visits;

  constructor(random: Random, bank: GeneBank, grower: Grower, visits: Visits) {
    this.random = random.fork('notes');
    this.bank = bank;
    this.grower = grower;
    this.visits = visits;
  }

  notesOf(plant: Plant, year: number): Noted[] {
    if (plant.planted > dayOf(year, 9, 1)) return [];
    const random = this.random.fork(`plant ${plant.number} in ${year}`);
    const page = new Page(random, plant);
    if (plant.gone !== null && plant.gone < dayOf(year, 5, 15)) {
      const died = plant.gone >= dayOf(year, 1, 1) && plant.goneWhy !== 'taken out';
      if (died && random.uniform() < 0.75) page.without('emergence', 'dead', plant.gone, observers[0]);
      return page.notes;
    }
    const grown = this.grower.grow(plant, year);
    const watch = watchOf(grown);
    if (watch === 'not') return page.notes;
    const bed = grown.spot.bed;
    const { visits, measuring, lateSummer } = this.visits.of(bed, year);
    const seen = visits.filter(
      ({ day }) => day >= plant.planted && (plant.gone === null || day < plant.gone),
    );
    const glance = liking(grown.values, grown.season) + random.normal(0, 0.4);
    this.watchStages(page, grown, watch, seen, glance);
    if (grown.flowers) this.lookAtFlowers(page, grown, watch, seen, glance);
    for (const visit of [measuring, lateSummer]) {
      if (!visit || visit.day < plant.planted || (plant.gone !== null && visit.day >= plant.gone)) continue;
      this.measureAll(page, grown, watch, visit, visit === measuring ? 'measuring' : 'late summer', glance);
    }
    if (measuring && watch === 'closely') this.frostAndClasses(page, grown, visits, measuring);
    return page.notes;
  }

  /** A stage is noted on the first visit that sees it; visits before may say 'not yet'. */
  private watchStages(
    page: Page,
    grown: PlantYear,
    watch: Exclude<Watch, 'not'>,
    visits: readonly Visit[],
    glance: number,
  ): void {
    const often = chances[watch];
    for (const stage of stages) {
      const wanted = stage === 'first-flower' || watch === 'closely';
      if (!wanted || (!grown.flowers && stage !== 'emergence')) continue;
      const day = grown.stages[stage];
      const at = day === null ? -1 : visits.findIndex((visit) => visit.day >= day);
      const before = at >= 0 ? at : visits.length;
      const soon = day !== null && day - (visits.at(-1)?.day ?? 0) < 21;
      if ((at < 0 && !soon) || page.random.uniform() > leaning(often.stage, glance)) continue;
      for (const back of [1, 2]) {
        const earlier = visits[before - back];
        if (earlier && page.random.uniform() < often.notYet / back)
          page.without(stage, 'not yet', earlier.day, earlier.by);
      }
      const visit = visits[at];
      if (visit) page.value(stage, dateText(visit.day), visit);
    }
  }

  private lookAtFlowers(
    page: Page,
    grown: PlantYear,
    watch: Exclude<Watch, 'not'>,
    visits: readonly Visit[],
    glance: number,
  ): void {
    const { 'first-flower': first, 'end-of-flower': end } = grown.stages;
    if (first === null) return;
    const open = visits.filter(({ day }) => day > first + 1 && (end === null || day < end));
    const chance = leaning(chances[watch].colour, glance);
    const pigments = this.bank.pigments(grown.genet.number);
    const look = (petal: Petal, visit: Visit | undefined, often: number): void => {
      if (!visit || page.random.uniform() > often) return;
      const { value, way } = notedColour(page.random, petal, pigments);
      page.value(petal, value, visit, { taken_by_way_of: way });
    };
    const visit = open[page.random.integer(Math.max(1, Math.ceil(open.length / 2)))];
    look('banner-colour', visit, chance);
    look('keel-colour', visit, chance * 0.6);
    look('fading-colour', open.at(-1), chance * chances[watch].seldom);
    // Flowers that please are looked at again.
    if (glance > 1.2) look('banner-colour', open.at(-1), 0.4);
  }

  private measureAll(
    page: Page,
    grown: PlantYear,
    watch: Exclude<Watch, 'not'>,
    visit: Visit,
    round: Measure['round'],
    glance: number,
  ): void {
    const { random } = page;
    if (random.uniform() < 0.006) {
      const state = random.uniform() < 0.4 ? 'missing' : 'skipped';
      page.without('spike-count', state, visit.day, visit.by, state === 'missing' ? 'label gone' : 'rain');
      return;
    }
    // Now and then the eye is one plant ahead of the pencil.
    const neighbour = grown.spot.bed.plants[grown.spot.walk];
    const strayed =
      neighbour && neighbour.gone === null && neighbour !== grown.plant && random.uniform() < 0.004;
    const looked = strayed ? this.grower.grow(neighbour, grown.year) : grown;
    const withdrawn = strayed && random.uniform() < 0.5 ? 'taken on the next plant in the row' : undefined;
    const all = watch === 'closely' && grown.spot.walk <= 8 && grown.spot.bed.sort === 'evaluation';
    const people: readonly Observer[] = all
      ? observers
      : glance > 1.6 && random.uniform() < 0.35
        ? [visit.by, observers[0]]
        : [visit.by];
    for (const measure of measures) {
      if (measure.round !== round) continue;
      if (!grown.flowers && flowerTraits.has(measure.trait) && measure.trait !== 'spike-count') continue;
      if (random.uniform() > leaning(chances[watch][measure.often], glance)) continue;
      for (const by of new Set(people)) {
        page.number(
          measure,
          reading(measure, looked.values[measure.trait], by, random),
          { day: visit.day, by },
          withdrawn,
        );
      }
    }
  }

  private frostAndClasses(page: Page, grown: PlantYear, visits: readonly Visit[], measuring: Visit): void {
    const { random } = page;
    const hurt = grown.values['frost-hurt'];
    const spring = visits.find(({ day }) => day >= dayOf(grown.year, 4, 12));
    if (hurt > 1.6 && spring && spring.day >= grown.plant.planted && random.uniform() < 0.5) {
      const measure = { trait: 'frost-hurt', reading: 'score', round: 'measuring', often: 'score' } as const;
      page.number(measure, reading(measure, hurt, spring.by, random), spring);
    }
    if (
      measuring.day < grown.plant.planted ||
      (grown.plant.gone !== null && measuring.day >= grown.plant.gone)
    )
      return;
    const classed = (trait: string, classes: readonly string[], place: number): void => {
      if (random.uniform() < 0.3) page.value(trait, notedClass(random, classes, place), measuring);
    };
    const bare = grown.values['bare-stem'];
    classed(
      'foliage-to-ground',
      ['leafy to the ground', 'leafy half way', 'bare'],
      bare < 7 ? 0 : bare < 18 ? 1 : 2,
    );
    classed('stem-colour', ['green', 'flushed', 'dark'], this.bank.darkStem(grown.genet.number));
    const { glaucous } = grown.values;
    classed(
      'glaucous-leaf',
      ['green', 'slightly bluish', 'bluish'],
      glaucous < 0 ? 0 : glaucous < 0.9 ? 1 : 2,
    );
  }
}

const flowerTraits: ReadonlySet<string> = new Set([
  'spike-count',
  'spike-length',
  'florets-per-spike',
  'side-spikes',
  'spike-angle',
  'height',
]);

/** The notes on one plant in one year, as they are written. */
class Page {
  readonly notes: Noted[] = [];
  readonly random: Random;
  private readonly plant: Plant;

  constructor(random: Random, plant: Plant) {
    this.random = random;
    this.plant = plant;
  }

  private start(trait: string, { day, by }: Visit) {
    const { random } = this;
    return {
      id: factId(random, day),
      plant: this.plant.code,
      trait,
      on: dateText(day),
      ...(random.uniform() < 0.6 ? { at: timeText(6 * 60 + random.integer(12 * 60)) } : {}),
      ...(random.uniform() < 0.97 ? { by: by.code } : {}),
    };
  }

  without(
    trait: string,
    state: 'not yet' | 'dead' | 'missing' | 'skipped',
    day: Day,
    by: Observer,
    remark?: string,
  ): void {
    this.notes.push({ row: { ...this.start(trait, { day, by }), state, ...(remark ? { remark } : {}) } });
  }

  value(
    trait: string,
    value: NonNullable<Row<'notes'>['value']>,
    visit: Visit,
    more: Partial<Row<'notes'>> = {},
  ): void {
    this.notes.push({ row: { ...this.start(trait, visit), state: 'seen', value, ...more } });
  }

  number(measure: Measure, value: number, visit: Visit, withdrawn?: string): void {
    const { random } = this;
    const row = { ...this.start(measure.trait, visit), state: 'seen' as const, value };
    const wrong =
      random.uniform() < visit.by.slips
        ? slipped(random, measure.trait, value, measure.reading !== 'length')
        : null;
    if (wrong === null) this.notes.push(withdrawn ? { row, withdrawn } : { row });
    else if (random.uniform() < 0.5) {
      const later = factId(random, visit.day + 1 + random.integer(30));
      this.notes.push({
        row: { ...row, value: wrong },
        replacedBy: { ...row, id: later, remark: 'slip of the pencil' },
      });
    } else this.notes.push({ row: { ...row, value: wrong } });
  }
}

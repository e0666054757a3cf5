import { dateText } from '../calendar.ts';
import { pollenHalfLife } from '../emit/crossing-rows.ts';
import { type CharacterName, characters } from '../genetics/characters.ts';
import type { Pigments } from '../genetics/gene-bank.ts';
import type { Species } from '../genetics/species.ts';
import { growthIn } from '../growth/beds.ts';
import { needsOf, type Stage } from '../growth/plant-year.ts';
import type { Season } from '../growth/seasons.ts';
import { cuttingRates } from '../programme/increase.ts';
import type { Programme } from '../programme/programme.ts';
import type { Batch, Bed, Genet } from '../programme/things.ts';
import { type Observer, observers } from '../scenario/people.ts';
import type { Site } from '../scenario/sites.ts';
import { dayReached, heatRule } from '../weather/heat.ts';

/** Where a genet truly comes from. */
export interface TrueOrigin {
  /** Codes; null is a founder's unknown parent or a plant from beyond the garden. */
  readonly seedParent: string | null;
  readonly pollenParent: string | null;
  /** The genet on which a sport arose. */
  readonly cloneOf: string | null;
  /** The population of a founder; null for what was bred in the garden. */
  readonly founders: Species | 'garden' | null;
  /** Whether the records have the genet at all. */
  readonly recorded: boolean;
}

export interface TrueLabel {
  readonly plant: string;
  readonly labelled: string;
  readonly truly: string;
  readonly fromYear: number;
  readonly how: 'exchanged' | 'another clone' | 'a volunteer took its place';
  readonly foundOut: string | null;
}

/** What is so in the simulated garden, known to nobody in it. Genets are named by their codes. */
export interface GardenTruth {
  /** Characters with genetic values: traits under their own codes, and others (heat needs, loads, log-odds). */
  readonly characters: readonly CharacterName[];
  readonly genets: ReadonlyMap<string, TrueOrigin>;
  readonly wrongLabels: readonly TrueLabel[];
  readonly observers: readonly Observer[];
  readonly heatRule: typeof heatRule;
  /**
   * Sum over loci of the alleles' effects, on the trait's scale, at the fourth season, in the middle bed and year; on
   * average a seedling's is the mean of its parents'.
   */
  additive(genet: string, character: CharacterName): number;
  /** The whole genetic value, dominance and epistasis included, on the same scale. */
  total(genet: string, character: CharacterName): number;
  pigments(genet: string): Pigments;
  /** Degree-days from 1 January by heatRule that a grown plant needs for each stage. */
  heatNeeds(genet: string): Readonly<Record<Stage, number>>;
  /** The day on which a grown plant of the genet reaches the stage in a middle bed; null if not by the year's end. */
  stageDay(genet: string, stage: Stage, year: number, site?: Site['code']): string | null;
  /** What a bed does on average to the plants in it: a factor on size, and how damp it is, 0 to 1. */
  growthIn(bed: string): { readonly size: number; readonly damp: number };
  /** Chances from which the counts of a batch of cuttings were drawn. */
  cuttings(batch: string): Batch['rates'];
  /** The population that batches' chances were drawn from, in log-odds. */
  readonly cuttingRates: typeof cuttingRates;
  /** Days in which half of stored pollen dies. */
  readonly pollenHalfLife: number;
  /** What each bed does to all that grows in it, and each year. */
  readonly beds: ReadonlyMap<string, Pick<Bed, 'richness' | 'slope' | 'lateness' | 'damp'>>;
  readonly seasons: ReadonlyMap<
    number,
    Pick<Season, 'size' | 'spikes' | 'leafSpot' | 'lodging' | 'winterLow'>
  >;
}

export function truthOf(programme: Programme): GardenTruth {
  const { bank, climate } = programme;
  const byCode = new Map(programme.genets.map((genet) => [genet.code, genet]));
  const beds = new Map(programme.plan.beds.map((bed) => [bed.code, bed]));
  const batches = new Map(programme.batches.map((batch) => [batch.code, batch]));
  const genet = (code: string): Genet => found(byCode.get(code), 'genet', code);
  return {
    characters: characters.map(({ name }) => name),
    genets: new Map(
      programme.genets.map(({ code, trueSeed, truePollen, cloneOf, founders, recorded }) => [
        code,
        {
          seedParent: trueSeed?.code ?? null,
          pollenParent: truePollen?.code ?? null,
          cloneOf: cloneOf?.code ?? null,
          founders,
          recorded,
        },
      ]),
    ),
    wrongLabels: programme.wrongLabels.map(({ plant, truly, from, how, foundOut }) => ({
      plant: plant.code,
      labelled: plant.label.code,
      truly: truly.code,
      fromYear: from,
      how,
      foundOut: foundOut === null ? null : dateText(foundOut),
    })),
    observers,
    heatRule,
    additive: (code, character) => bank.additive(genet(code).number, character),
    total: (code, character) => bank.total(genet(code).number, character),
    pigments: (code) => bank.pigments(genet(code).number),
    heatNeeds: (code) => needsOf(bank, genet(code).number),
    stageDay: (code, stage, year, site = 'home') => {
      const season = found(climate.seasons.get(year), 'year', String(year));
      const day = dayReached(season.heat[site], needsOf(bank, genet(code).number)[stage]);
      return day === null ? null : dateText(day);
    },
    growthIn: (code) => growthIn(found(beds.get(code), 'bed', code)),
    cuttings: (code) => found(batches.get(code), 'batch', code).rates,
    cuttingRates,
    pollenHalfLife,
    beds: new Map(
      programme.plan.beds.map(({ code, richness, slope, lateness, damp }) => [
        code,
        { richness, slope, lateness, damp },
      ]),
    ),
    seasons: new Map(
      [...climate.seasons].map(([year, { size, spikes, leafSpot, lodging, winterLow }]) => [
        year,
        { size, spikes, leafSpot, lodging, winterLow },
      ]),
    ),
  };
}

function found<T>(thing: T | undefined, what: string, name: string): T {
  if (thing === undefined) throw new RangeError(`the simulated garden has no ${what} “${name}”`);
  return thing;
}

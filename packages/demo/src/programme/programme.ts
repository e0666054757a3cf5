import type { PossibleParent } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { type Day, dayOf } from '../calendar.ts';
import { drawEffects } from '../genetics/effects.ts';
import { GeneBank } from '../genetics/gene-bank.ts';
import { drawSpecies, type Frequencies, type Species, speciesNames } from '../genetics/species.ts';
import { BedPlan, isFull, nextSpot } from '../growth/beds.ts';
import { Grower } from '../growth/plant-year.ts';
import { type Climate, drawClimate } from '../growth/seasons.ts';
import { Notebook } from '../noting/notebook.ts';
import { Visits } from '../noting/visits.ts';
import { type Site, sites } from '../scenario/sites.ts';
import type { Batch, Bed, Cross, Genet, Plant, PollenLot, SeedLot, Sowing } from './things.ts';

export interface Decision {
  readonly on: Day;
  readonly plant: Plant | null;
  readonly genet: Genet | null;
  readonly cross: Cross | null;
  readonly decision: 'keep' | 'look again' | 'discard' | 'rogue' | 'increase' | 'introduce';
  readonly reason: string | null;
  readonly by: string;
}

/** A label that is wrong: what it says, what stands there, since when, and when it was found out if it was. */
export interface WrongLabel {
  readonly plant: Plant;
  readonly truly: Genet;
  readonly from: number;
  readonly how: 'exchanged' | 'another clone' | 'a volunteer took its place';
  foundOut: Day | null;
}

interface TrialEntry {
  readonly plant: Plant;
  readonly replicate: number;
}
export interface Trial {
  readonly code: string;
  readonly bed: Bed;
  readonly planted: Day;
  readonly seed: number;
  readonly entries: TrialEntry[];
}

export interface Scale {
  readonly startYear: number;
  readonly years: number;
  readonly today: Day;
  /** Seedlings wanted in all, and how many times those of the usual garden that is. */
  readonly seedlings: number;
  readonly times: number;
}

type NewGenet = Partial<Genet> & Pick<Genet, 'code' | 'origin' | 'raisedIn'>;
type NewPlant = Pick<Plant, 'label' | 'planted' | 'ageAtPlanting' | 'raisedAs' | 'role' | 'size'> &
  Partial<Plant>;

/** Everything of the invented programme as it grows, and the ways to add to it. */
export class Programme {
  readonly random: Random;
  readonly scale: Scale;
  readonly species: Readonly<Record<Species, Frequencies>>;
  readonly bank: GeneBank;
  readonly climate: Climate;
  readonly grower: Grower;
  readonly notebook: Notebook;
  readonly visits: Visits;
  readonly plan: BedPlan;
  readonly genets: Genet[] = [];
  readonly plants: Plant[] = [];
  readonly crosses: Cross[] = [];
  readonly pollenLots: PollenLot[] = [];
  readonly lots: SeedLot[] = [];
  readonly sowings: Sowing[] = [];
  readonly batches: Batch[] = [];
  readonly decisions: Decision[] = [];
  readonly wrongLabels: WrongLabel[] = [];
  readonly trials: Trial[] = [];
  readonly standards: Genet[] = [];
  readonly selected = new Set<Genet>();
  private readonly serials = new Map<string, number>();

  constructor(random: Random, scale: Scale) {
    this.random = random;
    this.scale = scale;
    const effects = drawEffects(random.fork('effects'));
    const drawn = speciesNames.map((name) => [name, drawSpecies(random.fork(name), name, effects)] as const);
    this.species = Object.fromEntries(drawn) as Record<Species, Frequencies>;
    this.bank = new GeneBank(effects);
    this.climate = drawClimate(random.fork('climate'), scale.startYear, scale.years, scale.today);
    this.grower = new Grower(random, this.bank, this.climate.seasons);
    this.visits = new Visits(random, scale.today);
    this.notebook = new Notebook(random, this.bank, this.grower, this.visits);
    this.plan = new BedPlan(random);
  }

  /** The next number under a heading, from 1 on. */
  serial(heading: string): number {
    const next = (this.serials.get(heading) ?? 0) + 1;
    this.serials.set(heading, next);
    return next;
  }

  /** A code such as X21-06: a letter, the year, a serial number. */
  code(letter: string, year: number): string {
    const head = `${letter}${String(year % 100).padStart(2, '0')}-`;
    return head + String(this.serial(head)).padStart(2, '0');
  }

  addGenet(genome: Uint8Array, given: NewGenet): Genet {
    const genet: Genet = {
      name: null,
      taxon: null,
      accession: null,
      sowing: null,
      seedParents: [],
      pollenParents: [],
      trueSeed: null,
      truePollen: null,
      cloneOf: null,
      founders: null,
      foundersRecorded: null,
      standard: false,
      recorded: true,
      remark: null,
      ...given,
      number: this.bank.add(genome),
    };
    this.genets.push(genet);
    return genet;
  }

  plant(bed: Bed, given: NewPlant): Plant {
    const plant: Plant = {
      truly: given.label,
      usurper: null,
      moves: [],
      batch: null,
      gone: null,
      goneWhy: null,
      keptFrom: null,
      liking: 0,
      seasons: 0,
      ...given,
      number: this.plants.length,
      code: `${given.label.code}/${this.serial(`plants of ${given.label.code}`)}`,
      spot: nextSpot(bed),
    };
    bed.plants.push(plant);
    this.plants.push(plant);
    return plant;
  }

  /** A bed of the sort with room left, newly made where there is none. */
  bedWithRoom(sort: Bed['sort'], year: number, site: Site = sites[0]): Bed {
    const open = this.plan.beds.findLast((bed) => bed.sort === sort && bed.site === site);
    // Nursery beds are filled within the year; a new year's seedlings never stand among older ones.
    if (open && !isFull(open) && (sort !== 'seedling' || open.madeIn === year)) return open;
    return this.newBed(sort, year, site);
  }

  /** A new bed, with one plant of each standard at its beginning. */
  newBed(sort: Bed['sort'], year: number, site: Site = sites[0]): Bed {
    const bed = this.plan.make(sort, year, site);
    for (const label of this.standards) {
      this.plant(bed, {
        label,
        planted: dayOf(year, 5, 2),
        ageAtPlanting: 1,
        raisedAs: 'division',
        role: 'standard',
        size: '2 l pot',
      });
    }
    return bed;
  }

  /** Plants that live on a day. */
  living(day: Day): Plant[] {
    return this.plants.filter((plant) => plant.planted <= day && (plant.gone === null || plant.gone > day));
  }

  decide(decision: Partial<Decision> & Pick<Decision, 'on' | 'decision' | 'by'>): void {
    this.decisions.push({ plant: null, genet: null, cross: null, reason: null, ...decision });
  }
}

export const known = (genet: Genet): readonly PossibleParent[] => [{ genet: genet.code, chance: 1 }];

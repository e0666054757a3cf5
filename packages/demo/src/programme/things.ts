import type { PossibleParent } from '@keelrow/breeding/facts';
import type { Day } from '../calendar.ts';
import type { Species } from '../genetics/species.ts';
import type { Site } from '../scenario/sites.ts';

/** The simulation's own things; rows are written from them (emit/). They refer to one another directly. */

export interface Genet {
  /** Number in the gene bank. */
  readonly number: number;
  readonly code: string;
  name: string | null;
  readonly taxon: string | null;
  readonly accession: string | null;
  readonly sowing: Sowing | null;
  /** Parents as the records have them. */
  readonly seedParents: readonly PossibleParent[];
  readonly pollenParents: readonly PossibleParent[];
  /** Parents as they were; null is a founder or an outsider. */
  readonly trueSeed: Genet | null;
  readonly truePollen: Genet | null;
  /** Population from which a founder came; 'garden' is the old mixed stock; null for what was bred here. */
  readonly founders: Species | 'garden' | null;
  readonly foundersRecorded: string | null;
  /** The genet on which it arose as a sport. */
  readonly cloneOf: Genet | null;
  readonly origin: 'wild' | 'seedling' | 'cultivar' | 'volunteer' | 'sport';
  readonly raisedIn: number;
  readonly standard: boolean;
  /** Whether the records know of it; what grows unseen under another's label they do not. */
  recorded: boolean;
  remark: string | null;
}

export interface Bed {
  readonly code: string;
  readonly name: string;
  readonly sort: 'stock' | 'seedling' | 'evaluation';
  readonly site: Site;
  readonly madeIn: number;
  readonly east: number;
  readonly north: number;
  readonly length: number;
  readonly width: number;
  readonly spacing: number;
  readonly rows: number;
  /** Size of all that grows there, relative. */
  readonly richness: number;
  /** Change of size from one end to the other, as a share. */
  readonly slope: number;
  /** Heat needed there, relative: below 1 in a warm bed. */
  readonly lateness: number;
  /** A damp corner: its middle and radius in metres. */
  readonly damp: { readonly east: number; readonly north: number; readonly radius: number } | null;
  readonly plants: Plant[];
}

export interface Spot {
  readonly bed: Bed;
  readonly walk: number;
  readonly east: number;
  readonly north: number;
}

interface Move extends Spot {
  readonly on: Day;
  readonly by: string;
  readonly wateredDays: number;
}

export interface Plant {
  readonly number: number;
  readonly code: string;
  /** What its label says. */
  readonly label: Genet;
  /** What it is. */
  truly: Genet;
  /** A volunteer that took the place of the dead plant under the same label, from that year on. */
  usurper: { readonly from: number; readonly genet: Genet } | null;
  readonly spot: Spot;
  readonly moves: Move[];
  readonly planted: Day;
  readonly ageAtPlanting: number;
  readonly size: string;
  readonly raisedAs: 'seedling' | 'cutting' | 'division' | 'bought' | 'wild plant';
  readonly batch: Batch | null;
  readonly role: 'stock' | 'standard' | 'seedling' | 'selection';
  gone: Day | null;
  goneWhy: string | null;
  /** Year from which the breeders keep an eye on it. */
  keptFrom: number | null;
  /** What they thought of it so far, in standard deviations of their own liking, and from how many seasons. */
  liking: number;
  seasons: number;
}

export interface Cross {
  readonly code: string;
  readonly year: number;
  readonly sort: 'by hand' | 'selfed' | 'open-pollinated' | 'observed';
  readonly seedPlant: Plant;
  /** Null where bees chose. */
  readonly pollenPlant: Plant | null;
  readonly seedParents: readonly PossibleParent[];
  readonly pollenParents: readonly PossibleParent[];
  /** True pollen parents with their weights, for seed that bees set; null among them is an outsider. */
  readonly fathers: readonly { readonly genet: Genet | null; readonly weight: number }[];
  readonly madeOn: Day;
  readonly pollenLot: PollenLot | null;
  readonly brief: string | null;
  readonly remark: string;
  readonly tag: string;
}

export interface PollenLot {
  readonly code: string;
  readonly plant: Plant;
  readonly collected: Day;
}

export interface SeedLot {
  readonly code: string;
  readonly cross: Cross | null;
  readonly accession: string | null;
  readonly harvested: Day;
  readonly seeds: number;
  readonly weight: number;
  readonly germination: number;
}

export interface Sowing {
  readonly code: string;
  readonly lot: SeedLot;
  readonly on: Day;
  readonly seeds: number;
  readonly cameUp: number;
  readonly prickedOut: number;
  readonly planted: number;
}

export interface Batch {
  readonly code: string;
  readonly genet: Genet;
  readonly stockPlant: Plant;
  readonly on: Day;
  readonly stuck: number;
  readonly treatment: string | null;
  readonly rooted: number;
  /** Potted with a bud below the surface, and without. */
  readonly withBud: Group;
  readonly withoutBud: Group;
  /** The chances from which the counts were drawn. */
  readonly rates: {
    readonly rooting: number;
    readonly winterWithBud: number;
    readonly winterWithoutBud: number;
  };
}

export interface Group {
  readonly potted: number;
  readonly crownBuds: number;
  readonly intoWinter: number;
  readonly returned: number;
}

/** What grows at a plant's place in a year. */
export const growing = (plant: Plant, year: number): Genet =>
  plant.usurper && year >= plant.usurper.from ? plant.usurper.genet : plant.truly;

/** Where a plant stands on a day. */
export function spotOn(plant: Plant, day: Day): Spot {
  let spot: Spot = plant.spot;
  for (const move of plant.moves) if (move.on <= day) spot = move;
  return spot;
}

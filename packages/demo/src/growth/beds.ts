import type { Random } from '@keelrow/quant';
import type { Bed, Spot } from '../programme/things.ts';
import { type Site, sites } from '../scenario/sites.ts';

/** Length and width in metres, distance along the row and number of rows. */
const shapes = {
  stock: { length: 30, width: 3, spacing: 1, rows: 3 },
  evaluation: { length: 24, width: 3.2, spacing: 1, rows: 3 },
  seedling: { length: 20, width: 1.6, spacing: 0.4, rows: 4 },
} as const;
const path = 0.8;

/** Lays out beds one after another, in lanes, as they are needed. */
export class BedPlan {
  readonly beds: Bed[] = [];
  private readonly random: Random;
  private readonly lane = { home: { east: 0, north: 0 }, hill: { east: 0, north: 0 } };

  constructor(random: Random) {
    this.random = random.fork('beds');
  }

  make(sort: Bed['sort'], madeIn: number, site: Site = sites[0]): Bed {
    const { length, width, spacing, rows } = shapes[sort];
    const number = this.beds.filter((bed) => bed.sort === sort).length + 1;
    const lane = this.lane[site.code];
    const random = this.random.fork(`${sort} ${number}`);
    const bed: Bed = {
      code: `${sort === 'seedling' ? 'nursery' : sort === 'stock' ? 'stock' : 'trial'}-${number}`,
      name: `${sort === 'seedling' ? 'Nursery' : sort === 'stock' ? 'Stock' : 'Trial'} bed ${number}`,
      sort,
      site,
      madeIn,
      east: lane.east,
      north: Math.round(lane.north * 10) / 10,
      length,
      width,
      spacing,
      rows,
      richness: Math.exp(random.normal(0, 0.07)),
      slope: random.normal(0, 0.08),
      lateness: 1 + random.normal(0, 0.012),
      damp:
        number % 3 === 2
          ? {
              east: random.uniform() < 0.5 ? 0 : length,
              north: 0,
              radius: length * (0.12 + 0.1 * random.uniform()),
            }
          : null,
      plants: [],
    };
    lane.north += width + path;
    if (lane.north > 60) {
      lane.north = 0;
      lane.east += 32;
    }
    this.beds.push(bed);
    return bed;
  }
}

const capacity = ({ length, spacing, rows }: Bed): number => Math.floor(length / spacing + 1e-9) * rows;
export const isFull = (bed: Bed): boolean => bed.plants.length >= capacity(bed);

/** The next free spot in walking order, which turns at the end of each row. */
export function nextSpot(bed: Bed): Spot {
  const index = bed.plants.length;
  const perRow = capacity(bed) / bed.rows;
  const row = Math.floor(index / perRow);
  const along = row % 2 === 0 ? index % perRow : perRow - 1 - (index % perRow);
  return {
    bed,
    walk: index + 1,
    east: Math.round((along + 0.5) * bed.spacing * 100) / 100,
    north: Math.round((row + 0.5) * (bed.width / bed.rows) * 100) / 100,
  };
}

/** How much larger a plant grows at a spot than elsewhere, as a factor; and how damp it is there, 0 to 1. */
export function growthAt({ bed, east, north }: Spot): { size: number; damp: number } {
  const damp = bed.damp
    ? Math.exp(
        -(((east - bed.damp.east) / bed.damp.radius) ** 2) -
          ((north - bed.damp.north) / (2 * bed.damp.radius)) ** 2,
      )
    : 0;
  return { size: bed.richness * (1 + bed.slope * (east / bed.length - 0.5)) * (1 - 0.28 * damp), damp };
}

/** The same on average over the plants that were ever put into a bed. */
export function growthIn({ plants }: Bed): { size: number; damp: number } {
  const grown = plants.map(({ spot }) => growthAt(spot));
  const mean = (of: (one: (typeof grown)[number]) => number) =>
    grown.reduce((sum, one) => sum + of(one), 0) / grown.length;
  return { size: mean(({ size }) => size), damp: mean(({ damp }) => damp) };
}

import type { Brief, PlantMatch } from '@keelrow/breeding/brief';
import type { Pooled } from './pooled.ts';

/** A limit at a median of true values, so that half of the genets meet it. */
export interface MedianLimit {
  readonly trait: string;
  readonly wanted: 'more' | 'less';
  /** True values of the genets that the brief is held against. */
  readonly truths: ReadonlyMap<string, number>;
}

/** A brief whose musts stand at the medians of the true values. */
export function medianBrief(limits: readonly MedianLimit[]): Brief {
  return {
    id: 'calibration',
    code: 'calibration',
    name: 'Calibration',
    limits: limits.map(({ trait, wanted, truths }) => {
      const sorted = [...truths.values()].sort((a, b) => a - b);
      const median = sorted[sorted.length >> 1]!;
      return {
        trait,
        must: true,
        weight: null,
        atLeast: wanted === 'more' ? median : null,
        atMost: wanted === 'less' ? median : null,
        classes: null,
        colour: null,
        colourWithin: null,
        fromWeek: null,
        toWeek: null,
      };
    }),
  };
}

/** Plants that were told about the same chance, and how many of them truly meet the brief. */
export interface ChanceBin {
  /** Chances from this on, to the next bin's. */
  readonly from: number;
  readonly plants: number;
  /** Sum of the chances told. */
  readonly told: number;
  readonly met: number;
}

const chanceBinsFrom = [0, 0.2, 0.4, 0.6, 0.8] as const;

/** Holds the chances of a match against what is so. */
export function chanceBins(
  plants: readonly Pick<PlantMatch, 'id' | 'chance'>[],
  brief: Brief,
  limits: readonly MedianLimit[],
): ChanceBin[] {
  const meets = (genet: string): boolean =>
    brief.limits.every(({ atLeast, atMost }, i) => {
      const truth = limits[i]!.truths.get(genet)!;
      return truth >= (atLeast ?? -Infinity) && truth <= (atMost ?? Infinity);
    });
  const told = plants.flatMap(({ id, chance }) => (chance === null ? [] : [{ chance, met: meets(id) }]));
  return chanceBinsFrom.map((from, i) => {
    const own = told.filter(({ chance }) => chance >= from && chance < (chanceBinsFrom[i + 1] ?? Infinity));
    return {
      from,
      plants: own.length,
      told: own.reduce((sum, { chance }) => sum + chance, 0),
      met: own.filter(({ met }) => met).length,
    };
  });
}

/** Bins put together over gardens. */
export interface PooledBin {
  readonly from: number;
  readonly plants: number;
  /** Mean chance told, and share that truly meets the brief, with its standard error over gardens. */
  readonly told: number;
  readonly met: Pooled;
}

/** Standard errors leave out one garden at a time, as those of `pooled`. */
export function pooledBins(gardens: readonly (readonly ChanceBin[])[]): PooledBin[] {
  return chanceBinsFrom.map((from, i) => {
    const own = gardens.map((bins) => bins[i]!).filter(({ plants }) => plants > 0);
    const sum = (of: (bin: ChanceBin) => number, without = -1) =>
      own.reduce((total, bin, k) => (k === without ? total : total + of(bin)), 0);
    const share = (without = -1) => sum(({ met }) => met, without) / sum(({ plants }) => plants, without);
    const shares = own.map((_, k) => share(k));
    const mean = shares.reduce((total, value) => total + value, 0) / shares.length;
    const squares = shares.reduce((total, value) => total + (value - mean) ** 2, 0);
    const plants = sum(({ plants }) => plants);
    return {
      from,
      plants,
      told: sum(({ told }) => told) / plants,
      met: { value: share(), se: Math.sqrt((squares * (own.length - 1)) / own.length) },
    };
  });
}

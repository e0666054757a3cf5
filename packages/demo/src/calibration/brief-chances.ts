import type { Brief, PlantMatch } from '@keelrow/breeding/brief';
import type { Pooled } from './pooled.ts';

/** A trait that a brief asks of some genets. */
export interface AskedTrait {
  readonly trait: string;
  readonly wanted: 'more' | 'less';
  /** Likely values by genet, as told from the notes. */
  readonly told: ReadonlyMap<string, number>;
  /** True values of the same genets. */
  readonly truths: ReadonlyMap<string, number>;
}

/**
 * A brief that so many of the genets, trait by trait, seem to meet. Its musts stand at quantiles of what the notes tell, as a
 * breeder sets them; a limit at a quantile of the truth would itself tell of the truth, and no chance is told for that.
 *
 * @param share of the genets whose likely value lies within a limit
 */
export function briefForShare(asked: readonly AskedTrait[], share: number): Brief {
  return {
    id: 'calibration',
    code: 'calibration',
    name: 'Calibration',
    limits: asked.map(({ trait, wanted, told }) => {
      const best = [...told.values()].sort((a, b) => (wanted === 'more' ? b - a : a - b));
      const limit = best[Math.max(0, Math.round(share * best.length) - 1)]!;
      return {
        trait,
        must: true,
        weight: null,
        atLeast: wanted === 'more' ? limit : null,
        atMost: wanted === 'less' ? limit : null,
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
  asked: readonly AskedTrait[],
): ChanceBin[] {
  const meets = (genet: string): boolean =>
    brief.limits.every(({ atLeast, atMost }, i) => {
      const truth = asked[i]!.truths.get(genet)!;
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

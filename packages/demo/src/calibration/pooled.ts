import type { GenerationSums } from './garden-sums.ts';

/** A figure pooled over gardens, with its standard error over gardens. */
export interface Pooled {
  readonly value: number;
  readonly se: number;
}

/** How estimates stand to the truth over a number of gardens. */
export interface Calibration {
  readonly gardens: number;
  readonly ranges: number;
  /** Share of the ranges that hold the truth. */
  readonly held: Pooled;
  /** Correlation of estimate and truth within gardens. */
  readonly correlation: Pooled;
  /** What the standard errors promise for it, given how far the estimates spread. */
  readonly promised: Pooled;
  /** The root of the mean reliability, as shown: what is promised of genets before any was chosen for its notes. */
  readonly shown: Pooled;
  /** Regression of truth on estimate within gardens; 1 where estimates are neither too bold nor too timid. */
  readonly slope: Pooled;
  /** Mean of estimate − truth, generation by generation, in the unit of the points. */
  readonly bias: readonly (Pooled & { readonly generation: number })[];
}

type Sums = Omit<GenerationSums, 'generation'>;

/** Sums of one garden: of one trait, or of several that stand for the same. */
export type GardenSums = readonly (readonly GenerationSums[])[];

/**
 * Pools gardens: sums of squares and products about the own means of each garden and trait are added up, then divided. Genets
 * of one garden share its seasons and variances, so the garden is the unit of chance: standard errors leave out one garden at a
 * time (the jackknife; B. Efron and R. J. Tibshirani 1993, An Introduction to the Bootstrap, section 11.2).
 *
 * @param gardens sums of each garden; at least two
 */
export function pooled(gardens: readonly GardenSums[]): Calibration {
  const whole = gardens.map((garden) => garden.map(added).filter(({ genets }) => genets > 1));
  const jackknifed = (of: (some: readonly Sums[]) => number): Pooled => withError(whole, of);
  const generations = [...new Set(gardens.flat(2).map(({ generation }) => generation))].sort((a, b) => a - b);
  return {
    gardens: whole.length,
    ranges: total(whole.flat(), ({ genets }) => genets),
    held: jackknifed((some) => total(some, ({ held }) => held) / total(some, ({ genets }) => genets)),
    correlation: jackknifed((some) => {
      const { estimates, truths, both } = aboutMeans(some);
      return both / Math.sqrt(estimates * truths);
    }),
    // u given the notes is û with an error that is independent of û: var u = var û + error variance.
    promised: jackknifed((some) => {
      const { estimates } = aboutMeans(some);
      return Math.sqrt(estimates / (estimates + total(some, ({ errorVariances }) => errorVariances)));
    }),
    shown: jackknifed((some) =>
      Math.sqrt(
        1 - total(some, ({ errorVariances }) => errorVariances) / total(some, ({ spreads }) => spreads),
      ),
    ),
    slope: jackknifed((some) => {
      const { estimates, both } = aboutMeans(some);
      return both / estimates;
    }),
    bias: generations.map((generation) => {
      const own = gardens
        .map((garden) => garden.flatMap((trait) => trait.filter((sums) => sums.generation === generation)))
        .filter((traits) => traits.length > 0);
      const meanBias = (some: readonly Sums[]) =>
        total(some, ({ estimates, truths }) => estimates - truths) / total(some, ({ genets }) => genets);
      return { generation, ...withError(own, meanBias) };
    }),
  };
}

function withError(gardens: readonly (readonly Sums[])[], of: (some: readonly Sums[]) => number): Pooled {
  const without = gardens.map((_, left) => of(gardens.filter((_, each) => each !== left).flat()));
  const mean = without.reduce((sum, value) => sum + value, 0) / without.length;
  const squares = without.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { value: of(gardens.flat()), se: Math.sqrt((squares * (gardens.length - 1)) / gardens.length) };
}

function aboutMeans(gardens: readonly Sums[]): { estimates: number; truths: number; both: number } {
  return {
    estimates: total(gardens, (g) => g.estimateSquares - g.estimates ** 2 / g.genets),
    truths: total(gardens, (g) => g.truthSquares - g.truths ** 2 / g.genets),
    both: total(gardens, (g) => g.products - (g.estimates * g.truths) / g.genets),
  };
}

const total = (sums: readonly Sums[], of: (sums: Sums) => number): number =>
  sums.reduce((sum, each) => sum + of(each), 0);

const added = (generations: readonly Sums[]): Sums => ({
  genets: total(generations, ({ genets }) => genets),
  held: total(generations, ({ held }) => held),
  estimates: total(generations, ({ estimates }) => estimates),
  truths: total(generations, ({ truths }) => truths),
  estimateSquares: total(generations, ({ estimateSquares }) => estimateSquares),
  truthSquares: total(generations, ({ truthSquares }) => truthSquares),
  products: total(generations, ({ products }) => products),
  errorVariances: total(generations, ({ errorVariances }) => errorVariances),
  spreads: total(generations, ({ spreads }) => spreads),
});

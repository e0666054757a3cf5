import type { HeldPoint } from './held-point.ts';

/** Sums over the genets of one generation in one garden, from which all shares, correlations and biases are pooled. */
export interface GenerationSums {
  readonly generation: number;
  readonly genets: number;
  /** Of them, those whose range holds the truth. */
  readonly held: number;
  readonly estimates: number;
  readonly truths: number;
  readonly estimateSquares: number;
  readonly truthSquares: number;
  readonly products: number;
  readonly errorVariances: number;
  readonly spreads: number;
}

/** Sums of one garden and one kind of value, generation by generation. */
export function gardenSums(points: readonly HeldPoint[]): GenerationSums[] {
  const generations = [...new Set(points.map(({ generation }) => generation))].sort((a, b) => a - b);
  return generations.map((generation) => {
    const own = points.filter((point) => point.generation === generation);
    const sum = (of: (point: HeldPoint) => number) => own.reduce((total, point) => total + of(point), 0);
    return {
      generation,
      genets: own.length,
      held: sum(({ half, estimate, truth }) => (Math.abs(estimate - truth) <= half ? 1 : 0)),
      estimates: sum(({ estimate }) => estimate),
      truths: sum(({ truth }) => truth),
      estimateSquares: sum(({ estimate }) => estimate ** 2),
      truthSquares: sum(({ truth }) => truth ** 2),
      products: sum(({ estimate, truth }) => estimate * truth),
      errorVariances: sum(({ errorVariance }) => errorVariance),
      spreads: sum(({ spread }) => spread),
    };
  });
}

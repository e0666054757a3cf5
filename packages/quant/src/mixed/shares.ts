import type { Design } from './design.ts';
import { ModelError } from './model-error.ts';

/** A share of one fixed or random effect in a sum; `level` is null for the intercept and for covariates. */
export interface WeightedEffect {
  readonly term: string;
  readonly level: string | null;
  readonly weight: number;
}

/** A sum of effects in the equations: shares of their unknowns, each named once, and a known part. */
export interface Shares {
  readonly at: readonly number[];
  readonly share: readonly number[];
  readonly known: number;
}

/**
 * Finds the unknowns of a model by term and level.
 *
 * @param design the design that was fitted
 * @param whole the design before terms at their bound were left out; their effects are 0
 * @returns a function from effects to shares; it throws a ModelError for an effect that the model does not have
 */
export function sharesLookup(design: Design, whole: Design): (effects: readonly WeightedEffect[]) => Shares {
  const key = (term: string, level: string | null): string => JSON.stringify([term, level]);
  const fixed = new Map(design.fixed.map((column, j) => [key(column.term, column.level), j]));
  const random = new Map<string, number>();
  // Levels that have no equation of their own: bases, aliased columns, and effects of variances at their bound.
  const zero = new Set([...design.bases, ...design.aliased].map((column) => key(column.term, column.level)));
  for (const term of whole.terms) for (const level of term.levels) zero.add(key(term.name, level));
  for (const term of design.terms) {
    term.levels.forEach((level, i) => {
      random.set(key(term.name, level), term.offset + term.equations[i]!);
    });
  }
  return (effects) => {
    const shares = new Map<number, number>();
    const add = (equation: number, share: number): void => {
      shares.set(equation, (shares.get(equation) ?? 0) + share);
    };
    let known = 0;
    for (const { term, level, weight } of effects) {
      const name = key(term, level);
      const column = fixed.get(name);
      const equation = column ?? random.get(name);
      if (column === 0) {
        known += weight * design.mean;
        design.fixed.forEach(({ centre, scale }, j) => {
          if (centre !== 0) add(j, -(weight * centre) / scale);
        });
      }
      if (equation !== undefined) {
        add(equation, weight / (column === undefined ? 1 : design.fixed[column]!.scale));
      } else if (!zero.has(name)) {
        throw new ModelError(
          level === null
            ? `the model has no effect "${term}"`
            : `"${term}" has no level "${level}" in this model`,
          'Name a term and a level that the fit lists, or a base level',
        );
      }
    }
    return { at: [...shares.keys()], share: [...shares.values()], known };
  };
}

/** The shares as a vector over all unknowns. */
export function sharesVector({ at, share }: Shares, size: number): Float64Array {
  const vector = new Float64Array(size);
  at.forEach((equation, i) => {
    vector[equation] = share[i]!;
  });
  return vector;
}

/** Σ share × value of the unknown. */
export function sharesProduct({ at, share }: Shares, values: Float64Array): number {
  return at.reduce((sum, equation, i) => sum + share[i]! * values[equation]!, 0);
}

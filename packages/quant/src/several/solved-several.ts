import { ModelError } from '../mixed/model-error.ts';
import { type Shares, sharesLookup, type WeightedEffect } from '../mixed/shares.ts';
import { solve } from '../sparse/solve.ts';
import { type LevelSums, levelSums } from './level-sums.ts';
import type { CommonPart, SolvedParts, TraitEstimates } from './solved-parts.ts';

/** Several traits solved together, to be asked for effects, sums and their errors. */
export interface SolvedSeveral {
  /** Names of the traits in the order of all results. */
  readonly traits: readonly string[];
  /** REML log-likelihood of the covariance matrices. */
  readonly remlLogLikelihood: number;
  /** Estimates of one weighted sum of effects for each trait and their error covariances, traits × traits row by row. */
  combine(sums: readonly (readonly WeightedEffect[])[]): TraitEstimates;
  /**
   * The sum of the effects of each level in the named terms, trait by trait, for all levels that any of them has.
   *
   * A level that one of the terms does not have has an effect there that nothing is known of: its estimate is 0 and the
   * covariance matrix of the term adds to the error.
   *
   * @param common for each trait a sum of effects that is added to every level's, a mean say
   */
  sumsOfLevels(terms: readonly string[], common?: readonly (readonly WeightedEffect[])[]): LevelSums;
}

/** Wraps a joint solution for questions on sums of effects. */
export function solvedSeveral(parts: SolvedParts): SolvedSeveral {
  const { layout, joint, whole } = parts;
  const lookups = layout.designs.map((design, t) => sharesLookup(design, whole[t]!));
  const sharesOf = (sums: readonly (readonly WeightedEffect[])[]): Shares[] => {
    if (sums.length !== layout.names.length) {
      throw new ModelError(
        `${sums.length} sums were given for ${layout.names.length} traits`,
        'Give one sum for each trait; it may be empty',
      );
    }
    return sums.map((effects, t) => {
      const { at, share, known } = lookups[t]!(effects);
      return { at: at.map((i) => layout.places[t]![i]!), share, known };
    });
  };
  const combine = (sums: readonly (readonly WeightedEffect[])[]): CommonPart => {
    const shares = sharesOf(sums);
    const solved = shares.map(({ at, share }) => {
      const vector = new Float64Array(layout.w.width);
      at.forEach((i, k) => {
        vector[i] = share[k]!;
      });
      solve(joint.factor, vector);
      return vector;
    });
    const n = shares.length;
    const covariance = new Float64Array(n * n);
    const estimates = new Float64Array(n);
    shares.forEach(({ at, share, known }, a) => {
      const scale = layout.scales[a]!;
      estimates[a] = known + scale * at.reduce((sum, i, k) => sum + share[k]! * joint.solution[i]!, 0);
      for (let b = 0; b < n; b++) {
        const product = at.reduce((sum, i, k) => sum + share[k]! * solved[b]![i]!, 0);
        covariance[a * n + b] = scale * layout.scales[b]! * product;
      }
    });
    return { estimates, covariance, shares, solved };
  };
  return {
    traits: layout.names,
    remlLogLikelihood: joint.logLikelihood,
    combine: (sums) => {
      const { estimates, covariance } = combine(sums);
      return { estimates, covariance };
    },
    sumsOfLevels: (terms, common) => levelSums(parts, terms, common ? combine(common) : null),
  };
}

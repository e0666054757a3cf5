import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from './evaluation.ts';
import { type ValuePart, valueParts } from './value-parts.ts';
import { atEachFit, errorInDoubt } from './variances-in-doubt/at-each-fit.ts';

/** A prediction of how far a genet lies from the average noted genet, on the scale of the sums. */
export interface Predicted {
  readonly effect: number;
  /** Root of the variance of its error, the doubt about the variances included: what ranges are made of. */
  readonly se: number;
  /** The same with the best variances taken as the true ones: the textbook's standard error (Henderson 1975). */
  readonly atBest: number;
  /** Variance of the true distance before any note is taken: what the error's variance would be without notes. */
  readonly spread: number;
}

export interface GenetValue {
  readonly genet: string;
  /** All that the genet is: its additive value and what it is beyond. */
  readonly total: Predicted;
  /** What it hands on; null where kinship was not used. */
  readonly additive: Predicted | null;
}

/** 1 − error variance / variance without notes; null where nothing varies. */
export const reliabilityOf = ({ se, spread }: Predicted): number | null =>
  spread > 0 ? Math.max(0, 1 - se ** 2 / spread) : null;

/**
 * Each genet less the average noted genet, with the error variance of that difference (without kinship the error of its
 * effect itself, whose average is 0 by the model): estimates at the best variances,
 * errors over all that may be true.
 */
export function genetValues(evaluation: Evaluation): GenetValue[] {
  const best = valuesAtFit(evaluation);
  const at = atEachFit(evaluation, valuesAtFit);
  const inDoubt = (own: Predicted, of: (values: readonly GenetValue[]) => Predicted): Predicted => {
    const each = at.map(({ chance, told }) => ({ chance, told: of(told) }));
    return {
      effect: own.effect,
      se: errorInDoubt(own.effect, each),
      atBest: own.atBest,
      spread: each.reduce((sum, { chance, told }) => sum + chance * told.spread, 0),
    };
  };
  return best.map(({ genet, total, additive }, index) => ({
    genet,
    total: inDoubt(total, (values) => values[index]!.total),
    additive: additive && inDoubt(additive, (values) => values[index]!.additive!),
  }));
}

function valuesAtFit(evaluation: Evaluation): GenetValue[] {
  const parts = valueParts(evaluation);
  if (evaluation.kin === null) return evaluation.listed.map((genet) => ownEffect(evaluation, parts, genet));
  const total = differencesFromAverage(evaluation, parts, true);
  const handedOn = parts.filter(({ term }) => term === 'additive');
  const additive = handedOn.length > 0 ? differencesFromAverage(evaluation, handedOn, false) : null;
  return evaluation.listed.map((genet) => ({
    genet,
    total: total(genet),
    additive: additive?.(genet) ?? null,
  }));
}

/** A genet's effect as the fit has it. Without kinship the effects of all noted genets add up to 0. */
function ownEffect({ fitted }: Evaluation, parts: readonly ValuePart[], genet: string): GenetValue {
  const { estimate: effect, se } = fitted.combine(parts.flatMap(({ effectOf }) => effectOf(genet, 1) ?? []));
  const spread = parts.reduce((sum, part) => sum + part.own(genet), 0);
  return { genet, total: { effect, se, atBest: se, spread }, additive: null };
}

/**
 * Differences from the average: only differences are told by notes, the level of all genets goes into that of the trait.
 * For a best linear unbiased prediction û of random u, cov(û, u′ − û′) = 0 (Henderson 1975), so the errors of a genet and
 * of the average ū, whose estimate is Σ wᵣ yᵣ, have the covariance cov(u, ū) − cov(u, Σ wᵣ yᵣ): products of the relationship
 * matrix with a vector give it for all genets at once.
 *
 * Inbreeding depression is a fixed slope b: b (F − F̄) is added, and its error to the error as if it were independent.
 */
function differencesFromAverage(
  { fitted, notes, notedGenets, depression }: Evaluation,
  parts: readonly ValuePart[],
  withDepression: boolean,
): (genet: string) => Predicted {
  const own = (genet: string, weight = 1): WeightedEffect[] =>
    parts.flatMap(({ effectOf }) => effectOf(genet, weight) ?? []);
  const share = 1 / notedGenets.size;
  const average = [...notedGenets].flatMap((genet) => own(genet, share));
  const mean = fitted.combine(average).estimate;
  const shares = new Map([...notedGenets].map((genet) => [genet, share]));
  const untold = new Map(shares);
  const weights = fitted.rowWeights(average);
  for (const [row, { genet }] of notes.entries()) untold.set(genet, untold.get(genet)! - weights[row]!);
  const covarianceWith = (sum: ReadonlyMap<string, number>) => {
    const each = parts.map((part) => part.covarianceWith(sum));
    return (genet: string) => each.reduce((total, part) => total + part(genet), 0);
  };
  const [errorWithMean, spreadWithMean] = [covarianceWith(untold), covarianceWith(shares)];
  const meanOf = (over: (genet: string) => number) =>
    share * [...notedGenets].reduce((sum, genet) => sum + over(genet), 0);
  const [errorOfMean, spreadOfMean] = [meanOf(errorWithMean), meanOf(spreadWithMean)];
  const sunk = withDepression && depression ? depression : null;
  const meanInbreeding = sunk ? meanOf(sunk.inbreeding) : 0;
  return (genet) => {
    const { estimate, se: ownError } = fitted.combine(own(genet));
    // Nothing is known of those parts of a genet that have no effect in the fit.
    const unseen = parts.reduce((sum, part) => sum + (part.effectOf(genet, 1) ? 0 : part.own(genet)), 0);
    const more = sunk ? sunk.inbreeding(genet) - meanInbreeding : 0;
    const error =
      ownError ** 2 + unseen + errorOfMean - 2 * errorWithMean(genet) + (more * (sunk?.se ?? 0)) ** 2;
    const spread =
      parts.reduce((sum, part) => sum + part.own(genet), 0) + spreadOfMean - 2 * spreadWithMean(genet);
    const se = Math.sqrt(Math.max(0, error));
    return {
      effect: estimate - mean + more * (sunk?.slope ?? 0),
      se,
      atBest: se,
      spread: Math.max(0, spread),
    };
  };
}

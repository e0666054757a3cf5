import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from './estimate.ts';

/** A prediction of how far a genet lies from the average noted genet, on the scale of the sums. */
export interface Predicted {
  readonly effect: number;
  /** Root of the variance of its error. */
  readonly se: number;
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

/** The effects that make up what a genet is. */
export function totalOf({ model, notedGenets }: Evaluation, genet: string, weight = 1): WeightedEffect[] {
  const effects: WeightedEffect[] = [];
  if (model.additive) effects.push({ term: 'additive', level: genet, weight });
  if (model.random.includes('genet') && notedGenets.has(genet))
    effects.push({ term: 'genet', level: genet, weight });
  return effects;
}

/** 1 − error variance / variance without notes; null where nothing varies. */
export const reliabilityOf = ({ se, spread }: Predicted): number | null =>
  spread > 0 ? Math.max(0, 1 - se ** 2 / spread) : null;

/** Each genet less the average noted genet, with the error variance of that difference. */
export function genetValues(evaluation: Evaluation): GenetValue[] {
  const total = differencesFromAverage(evaluation, (genet) => totalOf(evaluation, genet), 'genet');
  const additive = evaluation.model.additive
    ? differencesFromAverage(evaluation, (genet) => [{ term: 'additive', level: genet, weight: 1 }], null)
    : null;
  return evaluation.listed.map((genet) => ({
    genet,
    total: total(genet),
    additive: additive?.(genet) ?? null,
  }));
}

/**
 * Differences from the average: only differences are told by notes, the level of all genets goes into that of the trait.
 * For a best linear unbiased prediction û of random u, cov(û, u′ − û′) = 0 (Henderson 1975), so the errors of a genet and
 * of the average ū, whose estimate is Σ wᵣ yᵣ, have the covariance cov(u, ū) − cov(u, Σ wᵣ yᵣ): products of the relationship
 * matrix with a vector give it for all genets at once.
 *
 * @param beyond term of what a genet is beyond kinship, where that is part of the value
 */
function differencesFromAverage(
  { kin, fitted, notes, notedGenets }: Evaluation,
  own: (genet: string) => WeightedEffect[],
  beyond: string | null,
): (genet: string) => Predicted {
  const variance = (term: string | null) =>
    fitted.result.variances.find((one) => one.term === term)?.estimate ?? 0;
  const [ofKin, ofGenet] = [variance('additive'), variance(beyond)];
  const share = 1 / notedGenets.size;
  const average = [...notedGenets].flatMap((genet) =>
    own(genet).map((effect) => ({ ...effect, weight: share * effect.weight })),
  );
  const mean = fitted.combine(average).estimate;
  const untold = new Map([...notedGenets].map((genet) => [genet, share]));
  const weights = fitted.rowWeights(average);
  for (const [row, { genet }] of notes.entries()) untold.set(genet, untold.get(genet)! - weights[row]!);
  const shares = new Map([...notedGenets].map((genet) => [genet, share]));
  const covarianceWith = (sum: ReadonlyMap<string, number>) => {
    const kinOf = ofKin > 0 && kin ? kin.times(sum) : null;
    return (genet: string) => ofKin * (kinOf?.(genet) ?? 0) + ofGenet * (sum.get(genet) ?? 0);
  };
  const [errorWithMean, spreadWithMean] = [covarianceWith(untold), covarianceWith(shares)];
  const meanOf = (over: (genet: string) => number) =>
    share * [...notedGenets].reduce((sum, genet) => sum + over(genet), 0);
  const [errorOfMean, spreadOfMean] = [meanOf(errorWithMean), meanOf(spreadWithMean)];
  return (genet) => {
    const { estimate, se } = fitted.combine(own(genet));
    // Nothing is known of what a genet without notes is beyond its kinship.
    const unseen = notedGenets.has(genet) ? 0 : ofGenet;
    const error = se ** 2 + unseen + errorOfMean - 2 * errorWithMean(genet);
    const spread = ofKin * (kin?.own(genet) ?? 0) + ofGenet + spreadOfMean - 2 * spreadWithMean(genet);
    return { effect: estimate - mean, se: Math.sqrt(Math.max(0, error)), spread: Math.max(0, spread) };
  };
}

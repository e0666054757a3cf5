import { type Evaluation, genetValues, halfOf80, type Predicted } from '@keelrow/breeding/evaluation';
import type { HeldPoint } from './held-point.ts';

/** True values of genets by their ids, in the trait's unit; null of a genet that has none. */
export interface Truth {
  additive(genet: string): number | null;
  total(genet: string): number | null;
  generationOf(genet: string): number;
}

export interface PointsOfTrait {
  readonly additive: readonly HeldPoint[];
  readonly total: readonly HeldPoint[];
}

/**
 * Holds the estimates of an evaluation against the truth, on the scale on which the sums were made, both from their own
 * average over the noted genets (notes tell of differences between genets only), and in standard deviations of the true
 * values of these genets, so that gardens and traits can be put together.
 */
export function pointsOf(evaluation: Evaluation, truth: Truth): PointsOfTrait {
  const { scale, notedGenets } = evaluation;
  const values = genetValues(evaluation);
  const points = (
    predicted: (value: (typeof values)[number]) => Predicted | null,
    truly: (genet: string) => number | null,
  ): HeldPoint[] => {
    const known = values.flatMap((value) => {
      const [told, so] = [predicted(value), truly(value.genet)];
      return told && so !== null ? [{ genet: value.genet, told, so: scale.to(so) }] : [];
    });
    const noted = known.filter(({ genet }) => notedGenets.has(genet));
    const meanOf = (of: (one: (typeof known)[number]) => number) =>
      noted.reduce((sum, one) => sum + of(one), 0) / noted.length;
    const [averageTold, averageSo] = [meanOf(({ told }) => told.effect), meanOf(({ so }) => so)];
    const unit = Math.sqrt(meanOf(({ so }) => (so - averageSo) ** 2));
    return known.map(({ genet, told: { effect, se, spread }, so }) => ({
      generation: truth.generationOf(genet),
      noted: notedGenets.has(genet),
      estimate: (effect - averageTold) / unit,
      truth: (so - averageSo) / unit,
      half: (halfOf80 * se) / unit,
      errorVariance: (se / unit) ** 2,
      spread: spread / unit ** 2,
    }));
  };
  return {
    total: points(({ total }) => total, truth.total),
    additive: points(({ additive }) => additive, truth.additive),
  };
}

import { ratioOfVariances } from '@keelrow/quant';
import type { Evaluation } from './estimate.ts';
import type { GenetValue, Predicted } from './genet-values.ts';
import type { Share } from './report.ts';

/**
 * Shares of the variance of single notes, within season, bed, age and observer: what is handed on (heritability in the
 * narrow sense) and all that lies between genets (repeatability of the genet, Falconer & Mackay 1996, chapter 8).
 * Standard errors by the delta method. Differences between people, beds and places are no part of a note's variance here,
 * as ranking leaves them out.
 */
export function sharesOf({ fitted, model }: Evaluation): {
  heritability: Share | null;
  repeatability: Share | null;
} {
  const terms = fitted.result.variances.map(({ term }) => term);
  const ofPlants = terms.filter((term) => ofTheNote.has(term));
  const between = terms.filter((term) => term === 'additive' || term === 'genet' || term === 'family');
  const total = fitted.result.variances
    .filter(({ term }) => ofPlants.includes(term))
    .reduce((sum, { estimate }) => sum + estimate, 0);
  if (!(total > 0)) return { heritability: null, repeatability: null };
  return {
    heritability: model.additive ? ratioOfVariances(fitted, ['additive'], ofPlants) : null,
    repeatability: ratioOfVariances(fitted, between, ofPlants),
  };
}

/** Terms that differ from genet to genet, plant to plant and note to note, rather than from place to place. */
const ofTheNote = new Set(['additive', 'genet', 'family', 'plant', 'residual']);

/**
 * The correlation to expect between estimates and true values over the noted genets: the root of the share of the variance
 * of their differences that the notes tell, 1 − Σ error variances / Σ variances (Henderson 1975: for best linear unbiased
 * predictions cov(û, u) = var(û)).
 */
export function accuracyOf(values: readonly GenetValue[], noted: ReadonlySet<string>): number | null {
  const of = values.filter(({ genet }) => noted.has(genet)).map(({ total }): Predicted => total);
  const spread = of.reduce((sum, one) => sum + one.spread, 0);
  const error = of.reduce((sum, one) => sum + one.se ** 2, 0);
  return spread > 0 ? Math.sqrt(Math.max(0, 1 - error / spread)) : null;
}

import { ratioOfVariances } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import type { GenetValue, Predicted } from '../genet-values.ts';
import type { Share } from '../report.ts';

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
 * The correlation to expect between estimates and true values over the noted genets. Given the notes, a true value is its
 * estimate and an error that is independent of it (Henderson 1975), so the true values spread by the variance of the estimates
 * and the mean error variance, and the correlation is the root of the first one's share. The root of the mean reliability
 * would be that of genets before any was chosen; where the best were kept and crossed, later genets differ more than that.
 */
export function accuracyOf(values: readonly GenetValue[], noted: ReadonlySet<string>): number | null {
  const of = values.filter(({ genet }) => noted.has(genet)).map(({ total }): Predicted => total);
  const mean = (each: (one: Predicted) => number) => of.reduce((sum, one) => sum + each(one), 0) / of.length;
  const average = mean(({ effect }) => effect);
  const told = mean(({ effect }) => (effect - average) ** 2);
  const spread = told + mean(({ se }) => se ** 2);
  return spread > 0 ? Math.sqrt(told / spread) : null;
}

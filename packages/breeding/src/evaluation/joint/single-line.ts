import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import { type ValuePart, valueParts } from '../value-parts.ts';
import { atEachFit, errorInDoubt } from '../variances-in-doubt/at-each-fit.ts';
import { grownLevel } from './joint-level.ts';

/** A true value on one line with the variance of its error. */
interface LineValue {
  readonly estimate: number;
  readonly variance: number;
}

/** True values of any genet on a line that is taken for itself, on the scale of its sums, the doubt about variances in. */
export function singleLine(evaluation: Evaluation): (genet: string) => LineValue {
  const best = lineAtFit(evaluation);
  const each = atEachFit(evaluation, lineAtFit);
  return (genet) => {
    const { estimate } = best(genet);
    const at = each.map(({ chance, told }) => {
      const value = told(genet);
      return { chance, told: { effect: value.estimate, se: Math.sqrt(value.variance) } };
    });
    return { estimate, variance: errorInDoubt(estimate, at) ** 2 };
  };
}

/**
 * Level, slope on inbreeding and effects of a genet together. The errors of fixed effects b̂ and of a genet u have the
 * covariance −cov(b̂, u), as û and b̂ are uncorrelated (Henderson 1975); with b̂ = Σ wᵣ yᵣ that is a product of the relationship
 * matrix with a vector, for all genets at once.
 */
function lineAtFit(evaluation: Evaluation): (genet: string) => LineValue {
  const { fitted, depression, notes } = evaluation;
  const listed = new Set(evaluation.listed);
  const parts = valueParts(evaluation);
  const varianceOf = (term: string) =>
    fitted.result.variances.find((one) => one.term === term)?.estimate ?? 0;
  const fixed = (effects: readonly WeightedEffect[]) => {
    const byGenet = new Map<string, number>();
    for (const [row, weight] of fitted.rowWeights(effects).entries()) {
      const { genet } = notes[row]!;
      byGenet.set(genet, (byGenet.get(genet) ?? 0) + weight);
    }
    const covariances = parts.map((part) => ({ part, with: part.covarianceWith(byGenet) }));
    return {
      ...fitted.combine(effects),
      covarianceWith: (genet: string, seen: ReadonlySet<ValuePart>) =>
        covariances.reduce((sum, { part, with: of }) => sum + (seen.has(part) ? of(genet) : 0), 0),
    };
  };
  const levelEffects = grownLevel(evaluation).effects;
  const slopeEffects = [{ term: 'inbreeding', level: null, weight: 1 }];
  const level = fixed(levelEffects);
  const slope = depression ? fixed(slopeEffects) : null;
  const together = depression ? fitted.errorCovariance(levelEffects, slopeEffects) : 0;
  return (genet) => {
    const known = listed.has(genet);
    const own: WeightedEffect[] = [];
    const seen = new Set<ValuePart>();
    // What of a genet has no effect in the fit, since neither it nor its kin were noted, has its variance as error.
    let unseen = 0;
    for (const part of parts) {
      const effect = known ? part.effectOf(genet, 1) : null;
      if (effect) {
        own.push(effect);
        seen.add(part);
      } else unseen += known ? part.own(genet) : varianceOf(part.term);
    }
    const f = depression && known ? depression.inbreeding(genet) : 0;
    const { estimate, se } = fitted.combine(own);
    const fixedError = level.se ** 2 + 2 * f * together + f ** 2 * (slope ? slope.se ** 2 : 0);
    const shared = level.covarianceWith(genet, seen) + (slope ? f * slope.covarianceWith(genet, seen) : 0);
    return {
      estimate: level.estimate + f * (slope?.estimate ?? 0) + estimate,
      variance: Math.max(0, se ** 2 + unseen + fixedError - 2 * shared),
    };
  };
}

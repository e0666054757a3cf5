import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from './estimate.ts';
import { grownLevel } from './joint-level.ts';
import { valueParts } from './value-parts.ts';

/** A true value on one line with the variance of its error. */
export interface LineValue {
  readonly estimate: number;
  readonly variance: number;
}

/** True values of any genet on a line that is taken for itself, on the scale of its sums. */
export function singleLine(evaluation: Evaluation): (genet: string) => LineValue {
  const { fitted, depression } = evaluation;
  const { effects: level } = grownLevel(evaluation);
  const listed = new Set(evaluation.listed);
  const parts = valueParts(evaluation);
  const varianceOf = (term: string) =>
    fitted.result.variances.find((one) => one.term === term)?.estimate ?? 0;
  return (genet) => {
    const own: WeightedEffect[] = [];
    // What of a genet has no effect in the fit, since neither it nor its kin were noted, has its variance as error.
    let unseen = 0;
    for (const part of parts) {
      const effect = listed.has(genet) ? part.effectOf(genet, 1) : null;
      if (effect) own.push(effect);
      else unseen += listed.has(genet) ? part.own(genet) : varianceOf(part.term);
    }
    if (depression && listed.has(genet))
      own.push({ term: 'inbreeding', level: null, weight: depression.inbreeding(genet) });
    const { estimate, se } = fitted.combine([...level, ...own]);
    return { estimate, variance: se ** 2 + unseen };
  };
}

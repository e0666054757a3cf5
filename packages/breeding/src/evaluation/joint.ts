import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from './estimate.ts';
import { grownLevel } from './joint-level.ts';
import type { JointValue, JointValues } from './joint-values.ts';
import { valueParts } from './value-parts.ts';

/** A line with what was found for it alone. */
export interface JointLine {
  readonly key: string;
  readonly evaluation: Evaluation;
}

/**
 * True values of any genet on several lines, each line taken for itself: total genetic value (additive and beyond) of a
 * grown plant in an average season and bed, the error of that level included. Of a genet that has no estimate: the level
 * of the garden with the spread of its genets.
 */
export function jointValues(lines: readonly JointLine[]): JointValues {
  const single = lines.map(({ evaluation }) => lineValues(evaluation));
  return {
    keys: lines.map(({ key }) => key),
    scales: lines.map(({ evaluation }) => evaluation.scale),
    correlations: null,
    words: wordsOf(lines),
    of(genet): JointValue {
      const mean = new Float64Array(lines.length);
      const covariance = new Float64Array(lines.length ** 2);
      for (const [i, line] of single.entries()) {
        const { estimate, variance } = line(genet);
        mean[i] = estimate;
        covariance[i * lines.length + i] = variance;
      }
      return { mean, covariance };
    },
  };
}

function lineValues(evaluation: Evaluation) {
  const { fitted, depression } = evaluation;
  const { effects: level } = grownLevel(evaluation);
  const listed = new Set(evaluation.listed);
  const parts = valueParts(evaluation);
  const varianceOf = (term: string) =>
    fitted.result.variances.find((one) => one.term === term)?.estimate ?? 0;
  return (genet: string) => {
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

const wordsOf = (lines: readonly JointLine[]): string[] => [
  lines.some(({ evaluation }) => grownLevel(evaluation).grown)
    ? 'Values are those of grown plants (from the fourth year on) in an average season and bed.'
    : 'Values are those of an average season and bed.',
];

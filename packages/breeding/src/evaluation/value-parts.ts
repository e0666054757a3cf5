import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from './evaluation.ts';

/** A random term that is part of what a genet is. */
export interface ValuePart {
  readonly term: string;
  /** Its effect on a genet; null where the fit has none for it. */
  effectOf(genet: string, weight: number): WeightedEffect | null;
  /** Its variance for one genet. */
  own(genet: string): number;
  /** Covariance of a genet's part with a weighted sum of genets' parts. */
  covarianceWith(sum: ReadonlyMap<string, number>): (genet: string) => number;
}

/** What a genet is: what it hands on, what its family shares beyond that, and what it alone is. */
export function valueParts({ model, fitted, kin, chosen, familyOf }: Evaluation): ValuePart[] {
  const varianceOf = (term: string) =>
    fitted.result.variances.find((one) => one.term === term)?.estimate ?? 0;
  const parts: ValuePart[] = [];
  if (kin && model.additive) {
    const variance = varianceOf('additive');
    parts.push({
      term: 'additive',
      effectOf: (genet, weight) => ({ term: 'additive', level: genet, weight }),
      own: (genet) => variance * kin.own(genet),
      covarianceWith(sum) {
        if (variance === 0) return () => 0;
        const related = kin.times(sum);
        return (genet) => variance * related(genet);
      },
    });
  }
  if (model.random.includes('family') && familyOf)
    parts.push(independentPart('family', familyOf, chosen.columns, varianceOf('family')));
  if (model.random.includes('genet'))
    parts.push(independentPart('genet', (genet) => genet, chosen.columns, varianceOf('genet')));
  return parts;
}

function independentPart(
  term: string,
  levelOf: (genet: string) => string,
  columns: ReadonlyMap<string, readonly string[]>,
  variance: number,
): ValuePart {
  const levels = new Set(columns.get(term));
  return {
    term,
    effectOf: (genet, weight) =>
      levels.has(levelOf(genet)) ? { term, level: levelOf(genet), weight } : null,
    own: () => variance,
    covarianceWith(sum) {
      const byLevel = new Map<string, number>();
      for (const [genet, weight] of sum)
        byLevel.set(levelOf(genet), (byLevel.get(levelOf(genet)) ?? 0) + weight);
      return (genet) => variance * (byLevel.get(levelOf(genet)) ?? 0);
    },
  };
}

import { bend, fitTwoTraits, type TraitTable } from '@keelrow/quant';
import type { JointControl } from './joint-values.ts';

/** Covariance matrices among lines, by term, `residual` among them. */
export interface JointCovariances {
  readonly matrices: ReadonlyMap<string, Float64Array>;
  /** The largest change of a correlation that made them positive definite. */
  readonly bent: number;
}

interface PairsOfTerm {
  /** Estimates of each line's variance, one from each pair. */
  readonly variances: number[][];
  readonly correlations: Float64Array;
}

/**
 * Variances and covariances of several traits from two-trait fits (REML) over all pairs: a variance is the mean of those
 * that a line has in its pairs, a correlation that of the pair. What is put together from pairs need not be positive
 * definite; it is made so by the nearest correlation matrix (N. J. Higham 2002, IMA Journal of Numerical Analysis
 * 22:329-343), the variances kept.
 *
 * @param apart terms in which lines are taken as independent
 */
export function jointCovariances(
  tables: readonly TraitTable[],
  apart: readonly string[],
  control: JointControl,
): JointCovariances {
  const n = tables.length;
  const terms = new Map<string, PairsOfTerm>();
  const of = (term: string): PairsOfTerm => {
    const known = terms.get(term);
    if (known) return known;
    const made = { variances: tables.map(() => []), correlations: new Float64Array(n * n) };
    terms.set(term, made);
    return made;
  };
  const pairs = tables.flatMap((_, j) => tables.slice(0, j).map((__, i) => [i, j] as const));
  for (const [done, [i, j]] of pairs.entries()) {
    control.onProgress?.(done / pairs.length, `${tables[i]!.name} with ${tables[j]!.name}`);
    const fit = fitTwoTraits(tables[i]!, tables[j]!, {
      apart,
      ...(control.isCancelled ? { isCancelled: control.isCancelled } : {}),
    });
    for (const { term, variances, correlation } of fit.terms) {
      const pair = of(term);
      for (const [t, at] of [i, j].entries()) {
        const variance = variances[t];
        if (variance) pair.variances[at]!.push(variance.value);
      }
      pair.correlations[i * n + j] = correlation?.value ?? 0;
      pair.correlations[j * n + i] = correlation?.value ?? 0;
    }
  }
  let bent = 0;
  const matrices = new Map<string, Float64Array>();
  for (const [term, { variances, correlations }] of terms) {
    const sd = variances.map((each) => Math.sqrt(mean(each)));
    const matrix = correlations.map((value, e) => {
      const [a, b] = [Math.floor(e / n), e % n];
      return (a === b ? 1 : value) * sd[a]! * sd[b]!;
    });
    const positive = bend(matrix, n);
    bent = Math.max(bent, positive.largestChange);
    matrices.set(term, positive.matrix);
  }
  return { matrices, bent };
}

const mean = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

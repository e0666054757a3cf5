import { bend, fitTwoTraits, type TraitTable, type TwoTraitFit } from '@keelrow/quant';
import type { JointControl } from './joint-values.ts';

/** Covariance matrices among lines, by term, `residual` among them. */
export interface JointCovariances {
  readonly matrices: ReadonlyMap<string, Float64Array>;
  /** The largest change of a genetic correlation that made them positive definite. */
  readonly bent: number;
  /** Pairs whose search did not settle, by name. */
  readonly unsettled: readonly string[];
  readonly pairs: readonly PairFit[];
}

/** A two-trait fit and the places of its lines. */
interface PairFit {
  readonly at: readonly [number, number];
  readonly fit: TwoTraitFit;
}

/** What a genet is, in the fits of several traits. */
export const partsOfGenet: readonly string[] = ['additive', 'genet'];

/** Correlation of lines a and b in what genets are; 0 where one does not vary. */
export function geneticCorrelation(
  matrices: ReadonlyMap<string, Float64Array>,
  n: number,
  a: number,
  b: number,
): number {
  const total = (i: number, j: number) =>
    partsOfGenet.reduce((sum, term) => sum + (matrices.get(term)?.[i * n + j] ?? 0), 0);
  const spread = Math.sqrt(total(a, a) * total(b, b));
  return spread > 0 ? total(a, b) / spread : 0;
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
  const unsettled: string[] = [];
  const fits: PairFit[] = [];
  const pairs = tables.flatMap((_, j) => tables.slice(0, j).map((__, i) => [i, j] as const));
  for (const [done, [i, j]] of pairs.entries()) {
    control.onProgress?.(done / pairs.length, `fitting together ${tables[i]!.name} with ${tables[j]!.name}`);
    const fit = fitTwoTraits(tables[i]!, tables[j]!, {
      apart,
      ...(control.isCancelled ? { isCancelled: control.isCancelled } : {}),
    });
    fits.push({ at: [i, j], fit });
    if (!fit.converged) unsettled.push(fit.traits.join(' with '));
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
  const paired = new Map<string, Float64Array>();
  for (const [term, { variances, correlations }] of terms) {
    const sd = variances.map((each) => Math.sqrt(mean(each)));
    paired.set(
      term,
      correlations.map((value, e) => {
        const [a, b] = [Math.floor(e / n), e % n];
        return (a === b ? 1 : value) * sd[a]! * sd[b]!;
      }),
    );
  }
  const matrices = new Map([...paired].map(([term, matrix]) => [term, bend(matrix, n).matrix]));
  const changes = pairs.map(([a, b]) =>
    Math.abs(geneticCorrelation(matrices, n, a, b) - geneticCorrelation(paired, n, a, b)),
  );
  return { matrices, bent: Math.max(0, ...changes), unsettled, pairs: fits };
}

const mean = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

import { type Covariances, ModelError } from '@keelrow/quant';
import type { PedigreeEntry } from '../../pedigree/index.ts';
import type { Evaluation } from '../evaluation.ts';
import { covarianceDraws } from './covariance-draws.ts';
import { geneticCorrelation, jointCovariances } from './joint-covariances.ts';
import { grownLevel } from './joint-level.ts';
import { jointTables } from './joint-tables.ts';
import type { JointControl, JointValue, JointValues, NormalValue } from './joint-values.ts';
import { singleLine } from './single-line.ts';
import { valuesAtCovariances } from './values-at-covariances.ts';

/** A line with what was found for it alone. */
export interface JointLine {
  readonly key: string;
  /** How people call it. */
  readonly name: string;
  readonly evaluation: Evaluation;
  /** Whether its errors are wanted jointly with those of other such lines. */
  readonly joint: boolean;
}

/**
 * True values of any genet on several lines at once: total genetic value (additive and beyond) of a grown plant in an average
 * season and bed, the error of that level included. The joint lines come from one solution of the mixed model equations
 * of all of them with the covariances of two-trait fits, and from one more for each set of covariances that may be the true
 * one; the others are taken each for itself. Of a genet that has no estimate: the level of the garden with the spread of its
 * genets.
 *
 * @param wanted genets that will be asked for beside the noted ones and their ancestors; others count as strangers
 * @throws FitCancelledError when stopped
 */
export function jointValues(
  lines: readonly JointLine[],
  pedigree: readonly PedigreeEntry[] | null,
  wanted: readonly string[],
  control: JointControl = {},
): JointValues {
  const n = lines.length;
  const together = lines.flatMap(({ joint }, at) => (joint ? [at] : []));
  const found =
    together.length > 1
      ? solvedTogether(
          together.map((at) => lines[at]!),
          pedigree,
          wanted,
          control,
        )
      : null;
  const singles = lines.map(({ evaluation }) => singleLine(evaluation));
  return {
    keys: lines.map(({ key }) => key),
    scales: lines.map(({ evaluation }) => evaluation.scale),
    words: [...levelInWords(lines), ...(found?.words ?? [])],
    of(genet): JointValue {
      const mean = new Float64Array(n);
      const covariance = new Float64Array(n * n);
      for (const [at, single] of singles.entries()) {
        const { estimate, variance } = single(genet);
        mean[at] = estimate;
        covariance[at * n + at] = variance;
      }
      const alone = { mean, covariance };
      if (!found?.best) return { ...alone, each: [alone] };
      const best = placed(alone, together, found.best(genet));
      if (found.each.length === 0) return { ...best, each: [best] };
      const each = found.each.map((values) => placed(alone, together, values(genet)));
      return { mean: best.mean, covariance: errorOver(each, best.mean), each };
    },
  };
}

/** The value with those of the lines solved together in their places. */
function placed(alone: NormalValue, together: readonly number[], joint: NormalValue): NormalValue {
  const n = alone.mean.length;
  const [mean, covariance] = [alone.mean.slice(), alone.covariance.slice()];
  for (const [a, at] of together.entries()) {
    mean[at] = joint.mean[a]!;
    for (const [b, other] of together.entries())
      covariance[at * n + other] = joint.covariance[a * together.length + b]!;
  }
  return { mean, covariance };
}

/** Mean squares and products of the errors of an estimate, where the values may be any of these. */
function errorOver(each: readonly NormalValue[], estimate: Float64Array): Float64Array {
  const n = estimate.length;
  const error = new Float64Array(n * n);
  for (const { mean, covariance } of each) {
    for (let e = 0; e < error.length; e++) {
      const [a, b] = [Math.floor(e / n), e % n];
      const off = (mean[a]! - estimate[a]!) * (mean[b]! - estimate[b]!);
      error[e] = error[e]! + (covariance[e]! + off) / each.length;
    }
  }
  return error;
}

interface Together {
  readonly words: readonly string[];
  /** At the best covariances; null where the lines could not be fitted together. */
  readonly best: ((genet: string) => NormalValue) | null;
  /** At each of those that may be the true ones. */
  readonly each: readonly ((genet: string) => NormalValue)[];
}

/** Part of the work that the two-trait fits are. */
const shareOfPairs = 0.6;

function solvedTogether(
  lines: readonly JointLine[],
  pedigree: readonly PedigreeEntry[] | null,
  wanted: readonly string[],
  control: JointControl,
): Together {
  try {
    const { pairs, whole, apart } = jointTables(
      lines.map(({ name, evaluation }) => ({ key: name, evaluation })),
      pedigree,
      wanted,
    );
    const covariances = jointCovariances(pairs, apart, {
      ...control,
      onProgress: (share, step) => control.onProgress?.(shareOfPairs * share, step),
    });
    const { matrices, bent, unsettled } = covariances;
    const evaluations = lines.map(({ evaluation }) => evaluation);
    const best = valuesAtCovariances(evaluations, whole, matrices, control);
    const draws = covarianceDraws(evaluations, covariances, apart);
    const each = draws.flatMap((drawn, done) => {
      control.onProgress?.(
        shareOfPairs + (1 - shareOfPairs) * (done / draws.length),
        'trying variances and correlations that may be the true ones',
      );
      return solvableAt(() => valuesAtCovariances(evaluations, whole, drawn, control));
    });
    return {
      words: [
        ...correlationsInWords(lines, matrices),
        ...bentInWords(bent),
        ...(each.length > 0
          ? ['That the notes leave doubt about variances and correlations is counted in the chances.']
          : []),
        ...unsettled.map((pair) => `The sums for ${pair} did not settle; take the chances as rough.`),
      ],
      best,
      each,
    };
  } catch (error) {
    if (!(error instanceof ModelError)) throw error;
    return {
      words: [
        `The traits were taken as independent, as they could not be fitted together: ${error.problem}.`,
      ],
      best: null,
      each: [],
    };
  }
}

/** Covariances far from the best may have no solution; they are passed over. */
function solvableAt<T>(solve: () => T): T[] {
  try {
    return [solve()];
  } catch (error) {
    if (error instanceof ModelError) return [];
    throw error;
  }
}

const levelInWords = (lines: readonly JointLine[]): string[] =>
  lines.length === 0
    ? []
    : [
        lines.some(({ evaluation }) => grownLevel(evaluation).grown)
          ? 'Values are those of grown plants (from the fourth year on) in an average season and bed.'
          : 'Values are those of an average season and bed.',
      ];

/** Correlations smaller than this are not worth a sentence. */
const worthTelling = 0.2;

function correlationsInWords(lines: readonly JointLine[], matrices: Covariances): string[] {
  const told = lines.flatMap(({ name }, b) =>
    lines.slice(0, b).flatMap((other, a) => {
      const correlation = geneticCorrelation(matrices, lines.length, a, b);
      return Math.abs(correlation) >= worthTelling
        ? [`${other.name} and ${name} (${correlation.toFixed(2).replace('-', '−')})`]
        : [];
    }),
  );
  return [
    told.length > 0
      ? `Traits that go together in genets count together; genetic correlations: ${told.join(', ')}.`
      : 'The traits hardly go together in genets (genetic correlations below 0.2).',
  ];
}

const bentInWords = (bent: number): string[] =>
  bent >= 0.005
    ? [
        `The correlations of pairs did not fit together and were changed by up to ${bent.toFixed(2)} (nearest correlation matrix).`,
      ]
    : [];

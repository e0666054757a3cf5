import { ModelError, type SolvedSeveral, solveSeveral } from '@keelrow/quant';
import type { PedigreeEntry } from '../../pedigree/index.ts';
import type { Evaluation } from '../evaluation.ts';
import { geneticCorrelation, jointCovariances, partsOfGenet } from './joint-covariances.ts';
import { grownLevel } from './joint-level.ts';
import { jointTables } from './joint-tables.ts';
import type { JointControl, JointValue, JointValues } from './joint-values.ts';
import { type LineValueInDoubt, singleLine } from './single-line.ts';

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
 * of all of them (C. R. Henderson and R. L. Quaas 1976, Journal of Animal Science 43:1188-1197) with the covariances of
 * two-trait fits; the others are taken each for itself. Of a genet that has no estimate: the level of the garden with the
 * spread of its genets.
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
      const alone = singles.map((single) => single(genet));
      for (const [at, { estimate, variance }] of alone.entries()) {
        mean[at] = estimate;
        covariance[at * n + at] = variance;
      }
      const joint = found?.of?.(genet);
      if (joint) {
        // Errors grow by the doubt about variances as those of each line alone do.
        const grown = together.map((at) => growthInDoubt(alone[at]!));
        for (const [a, at] of together.entries()) {
          mean[at] = joint.mean[a]!;
          for (const [b, other] of together.entries())
            covariance[at * n + other] = joint.covariance[a * together.length + b]! * grown[a]! * grown[b]!;
        }
      }
      return { mean, covariance };
    },
  };
}

const growthInDoubt = ({ variance, varianceAtBest }: LineValueInDoubt): number =>
  varianceAtBest > 0 ? Math.sqrt(variance / varianceAtBest) : 1;

interface Together {
  readonly words: readonly string[];
  /** Null where the lines could not be fitted together. */
  readonly of: ((genet: string) => JointValue) | null;
}

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
    const { matrices, bent, unsettled } = jointCovariances(pairs, apart, control);
    const known = partsOfGenet.filter((term) => matrices.has(term));
    const solved = solveSeveral(whole, matrices, known, {
      ...(control.isCancelled ? { isCancelled: control.isCancelled } : {}),
    });
    return {
      words: [
        ...correlationsInWords(lines, matrices),
        ...bentInWords(bent),
        ...unsettled.map((pair) => `The sums for ${pair} did not settle; take the chances as rough.`),
      ],
      of: valuesOfGenets(lines, solved, matrices, known),
    };
  } catch (error) {
    if (!(error instanceof ModelError)) throw error;
    return {
      words: [
        `The traits were taken as independent, as they could not be fitted together: ${error.problem}.`,
      ],
      of: null,
    };
  }
}

function valuesOfGenets(
  lines: readonly JointLine[],
  solved: SolvedSeveral,
  matrices: ReadonlyMap<string, Float64Array>,
  known: readonly string[],
): (genet: string) => JointValue {
  const n = lines.length;
  const level = lines.map(({ evaluation }) => grownLevel(evaluation).effects);
  const sums = solved.sumsOfLevels(known, level);
  const placeOf = new Map(sums.levels.map((genet, place) => [genet, place]));
  const common = solved.combine(level);
  const slopes = solved.combine(
    lines.map(({ evaluation }) =>
      evaluation.depression ? [{ term: 'inbreeding', level: null, weight: 1 }] : [],
    ),
  );
  const stranger = common.covariance.map((value, e) =>
    known.reduce((sum, term) => sum + matrices.get(term)![e]!, value),
  );
  return (genet) => {
    const place = placeOf.get(genet);
    if (place === undefined) return { mean: common.estimates, covariance: stranger };
    const mean = sums.estimates.slice(place * n, (place + 1) * n);
    const covariance = sums.covariances.slice(place * n * n, (place + 1) * n * n);
    // The slope on inbreeding is a fixed one; its error is added as if independent of the rest.
    for (const [t, { evaluation }] of lines.entries()) {
      const { depression, kin } = evaluation;
      const f = depression && kin?.kinship.indexOf(genet) !== undefined ? depression.inbreeding(genet) : 0;
      mean[t] = mean[t]! + f * slopes.estimates[t]!;
      covariance[t * n + t] = covariance[t * n + t]! + f * f * slopes.covariance[t * n + t]!;
    }
    return { mean, covariance };
  };
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

function correlationsInWords(
  lines: readonly JointLine[],
  matrices: ReadonlyMap<string, Float64Array>,
): string[] {
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

import type { TwoTraitFit } from '@keelrow/quant';
import { choleskyFactor, solveByFactor } from '../variances-in-doubt/truncated-normal-points.ts';
import { partsOfGenet } from './joint-covariances.ts';

/** What is believed of the correlations of two traits, term by term, on Fisher's scale z = artanh r: jointly normal. */
export interface CorrelationBelief {
  readonly terms: readonly string[];
  readonly mean: readonly number[];
  /** Lower triangular, root root' = covariance. */
  readonly root: readonly (readonly number[])[];
}

/**
 * Before any note: z is normal around 0 with this deviation, so that most correlations lie between −0.75 and 0.75 (own choice,
 * no source). Without it the genets that seem to meet a brief are those of gardens whose correlations were taken for too
 * favourable.
 */
const usualSpread = 0.5;
/** Fisher's scale runs away at ±1; a correlation is looked at from here. */
const furthest = 0.99;
/** Error of z where not even the errors of variances are told. */
const unknownError = 1;
/** Error variance of z where rows tell nothing, so that what is believed before stands; and the least, for rounding. */
const toldNothing = 1e6;
const leastVariance = 1e-9;

/**
 * What a two-trait fit tells of its correlations, joined with what is usual: normal times normal (A. Gelman and others 2013,
 * Bayesian Data Analysis, section 3.5) on Fisher's scale (R. A. Fisher 1921, Metron 1:3-32), the errors from those of variances
 * and covariances by the delta method. That method overstates the error near ±1 and has none at the bound, where Robertson's
 * holds. Terms in which the traits are taken as independent are not among them.
 *
 * @param apart these terms
 */
export function correlationBelief(fit: TwoTraitFit, apart: readonly string[]): CorrelationBelief {
  const among = fit.terms.filter(
    ({ term, correlation }) =>
      correlation !== null &&
      !apart.includes(term) &&
      (correlation.value !== 0 || correlation.se !== null || partsOfGenet.includes(term)),
  );
  const seen = among.map(({ correlation }) =>
    Math.atanh(Math.min(furthest, Math.max(-furthest, correlation!.value))),
  );
  const errors = errorsOfZ(fit, among);
  const prior = usualSpread ** 2;
  const factor = choleskyFactor(errors.map((row, i) => row.map((x, j) => x + (i === j ? prior : 0))))!;
  const mean = solveByFactor(factor, seen).map((x) => prior * x);
  const covariance = among.map((_, i) => {
    const unit = among.map((__, j) => (i === j ? 1 : 0));
    return solveByFactor(factor, unit).map((x, j) => prior * (unit[j]! - prior * x));
  });
  return { terms: among.map(({ term }) => term), mean, root: choleskyFactor(covariance)! };
}

type Term = TwoTraitFit['terms'][number];

/** Error covariances of the z of these terms. */
function errorsOfZ({ errors }: TwoTraitFit, among: readonly Term[]): number[][] {
  const slopes = among.map(({ term, variances, correlation }) => {
    if (!errors || correlation!.se === null) return null;
    const [v, w] = variances.map((variance) => variance!.value) as [number, number];
    const r = correlation!.value;
    return errors.parameters.map((parameter) => {
      if (parameter.term !== term) return 0;
      const slope =
        parameter.of === 'covariance' ? 1 / Math.sqrt(v * w) : (-0.5 * r) / (parameter.of === 0 ? v : w);
      return slope / (1 - r * r);
    });
  });
  const count = errors?.parameters.length ?? 0;
  const product = (a: readonly number[], b: readonly number[]) =>
    a.reduce(
      (sum, x, i) => sum + x * b.reduce((inner, y, k) => inner + y * errors!.matrix[i * count + k]!, 0),
      0,
    );
  const widest = among.map(robertsonError);
  const shrunk = slopes.map((a, i) => a && Math.min(1, widest[i]! / Math.sqrt(product(a, a))));
  return among.map(({ correlation }, i) =>
    among.map((_, j) => {
      const [a, b] = [slopes[i]!, slopes[j]!];
      const own = i === j ? leastVariance : 0;
      if (a && b) return own + shrunk[i]! * shrunk[j]! * product(a, b);
      if (i !== j) return 0;
      return correlation!.value === 0 ? toldNothing : widest[i]! ** 2;
    }),
  );
}

/**
 * Robertson's standard error of a correlation, (1 − r²)/√2 √(se(v) se(w)/(v w)), on the scale of z, where 1 − r² falls away
 * (A. Robertson 1959, Biometrics 15:469-485; D. S. Falconer and T. F. C. Mackay 1996, equation 19.4).
 */
function robertsonError({ variances: [v, w] }: Term): number {
  if (!v?.se || !w?.se) return unknownError;
  return Math.sqrt((v.se * w.se) / (2 * v.value * w.value));
}

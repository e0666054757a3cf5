import { maximiseWithin } from './bounded-quadratic.ts';
import type { Derivatives } from './derivatives.ts';
import type { Design } from './design.ts';
import type { Evaluation } from './evaluation.ts';

/** Least share of the residual variance that a variance is taken to during the search. */
const FLOOR = 1e-8;
/** Least share of itself that one average information step leaves of a variance. */
const MOST_SHRINKING = 0.05;

/** A proposed change of the variances, residual last. */
export interface Step {
  readonly target: Float64Array;
  /** Twice the gain in log-likelihood that the step promises. */
  readonly gain: number;
}

/** The variances of the terms go no lower than this during a search; a residual has no floor of its own. */
function floorsAt(variances: Float64Array): Float64Array {
  const last = variances.length - 1;
  return variances.map((_, i) => (i === last ? 0 : FLOOR * variances[last]!));
}

/** Whether the variance numbered i stands at its floor. */
export function atFloor(variances: Float64Array, i: number): boolean {
  return i < variances.length - 1 && variances[i]! <= 1.001 * FLOOR * variances[variances.length - 1]!;
}

/**
 * The average information step from the current variances, kept within bounds (docs/methods/mixed-model.md, line 11).
 *
 * @param free variances that are not held
 * @returns null when the information is singular
 */
export function boundedStep(
  design: Design,
  evaluation: Evaluation,
  slope: Derivatives,
  free: readonly number[],
): Step | null {
  const { variances } = evaluation;
  const size = variances.length;
  const information = supportedInformation(design, slope);
  const floors = floorsAt(variances);
  const bounds = variances.map((v, i) => Math.max(floors[i]!, v * MOST_SHRINKING) - v);
  const change = maximiseWithin(information, size, free, slope.score, bounds);
  if (!change) return null;
  let gain = 0;
  for (const i of free) {
    let curved = 0;
    for (const k of free) curved += information[i * size + k]! * change[k]!;
    gain += (2 * slope.score[i]! - curved) * change[i]!;
  }
  return { target: variances.map((v, i) => v + change[i]!), gain };
}

/**
 * Average information with its diagonal raised to what the expected information is at least: ½ tr(PVₖPVₖ) ≥
 * ½ tr(PVₖ)² / qₖ, by the inequality of Cauchy and Schwarz. Where effects happen to be small the average information of
 * their variance is far below that, and its steps would lead far astray.
 */
function supportedInformation(design: Design, slope: Derivatives): Float64Array {
  const { terms, records, fixed } = design;
  const size = slope.traces.length;
  const information = slope.information.slice();
  slope.traces.forEach((trace, i) => {
    const degrees = i < terms.length ? terms[i]!.size : records - fixed.length;
    const least = (0.5 * trace * trace) / degrees;
    information[i * size + i] = Math.max(information[i * size + i]!, least);
  });
  return information;
}

/** One step of the EM algorithm (line 12), which never lowers the likelihood. */
export function emTarget(
  design: Design,
  evaluation: Evaluation,
  slope: Derivatives,
  free: readonly number[],
): Float64Array {
  const { terms, records, fixed } = design;
  const { variances, penalties, errorSquares } = evaluation;
  const floors = floorsAt(variances);
  const target = variances.slice();
  let determined = fixed.length;
  terms.forEach((term, t) => {
    determined += term.size - slope.undetermined[t]!;
    target[t] = (penalties[t]! + variances[t]! * slope.undetermined[t]!) / term.size;
  });
  const last = terms.length;
  target[last] = (errorSquares + variances[last]! * determined) / records;
  return target.map((v, i) => (free.includes(i) ? Math.max(floors[i]!, v) : variances[i]!));
}

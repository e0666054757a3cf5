import type { Random } from '../random/seeded-random.ts';
import { type BoxSteps, boxSteps } from './box-steps.ts';
import { intervalChance, quantileWithin } from './interval.ts';
import { meanOverCube } from './unit-cube.ts';

/** A chance with a bound on its error that holds about 99 times in 100; 0 where the chance is exact. */
export interface BoxProbability {
  readonly chance: number;
  readonly error: number;
}

export interface BoxControl {
  readonly random: Random;
  /** Error at which to stop (1e-4 unless given). */
  readonly tolerance?: number;
}

/**
 * The chance that a normal variable lies within a box: low ≤ x ≤ high in every element.
 *
 * Parts that are independent of one another are taken apart; a part of one element is exact, others are integrated by the
 * method of A. Genz 1992, Journal of Computational and Graphical Statistics 1:141-149. Elements without variance, and
 * elements that others determine, are right: they are limits on the others.
 *
 * @param mean d numbers
 * @param covariance d × d row by row, positive semidefinite
 * @param low may hold -Infinity
 * @param high may hold Infinity
 * @throws RangeError for lengths that do not fit, numbers that are none, or a matrix that is not positive semidefinite
 */
export function boxProbability(
  mean: ArrayLike<number>,
  covariance: ArrayLike<number>,
  low: ArrayLike<number>,
  high: ArrayLike<number>,
  control: BoxControl,
): BoxProbability {
  requireBox(mean, covariance, low, high);
  const d = mean.length;
  const limited: number[] = [];
  for (let i = 0; i < d; i++) {
    const variance = covariance[i * d + i]!;
    if (low[i]! > high[i]!) return { chance: 0, error: 0 };
    if (low[i] === Number.NEGATIVE_INFINITY && high[i] === Number.POSITIVE_INFINITY) continue;
    if (variance > 0) limited.push(i);
    else if (mean[i]! < low[i]! || mean[i]! > high[i]!) return { chance: 0, error: 0 };
  }
  let chance = 1;
  let relative = 0;
  for (const part of independentParts(covariance, d, limited)) {
    const sd = part.map((i) => Math.sqrt(covariance[i * d + i]!));
    const from = part.map((i, k) => (low[i]! - mean[i]!) / sd[k]!);
    const to = part.map((i, k) => (high[i]! - mean[i]!) / sd[k]!);
    const correlation = new Float64Array(part.length ** 2);
    part.forEach((i, k) => {
      part.forEach((j, l) => {
        correlation[k * part.length + l] = covariance[i * d + j]! / (sd[k]! * sd[l]!);
      });
    });
    const { chance: own, error } = chanceOf(boxSteps(correlation, from, to), control);
    if (own === 0 && error === 0) return { chance: 0, error: 0 };
    // Errors of a product, to the first order.
    relative = relative * own + error * chance;
    chance *= own;
  }
  return { chance, error: relative };
}

/** Groups of elements with covariances between them, in the order of their first element. */
function independentParts(covariance: ArrayLike<number>, d: number, among: readonly number[]): number[][] {
  const left = new Set(among);
  const parts: number[][] = [];
  for (const first of among) {
    if (!left.delete(first)) continue;
    const part = [first];
    for (const i of part) {
      for (const j of left) {
        if (covariance[i * d + j] === 0) continue;
        left.delete(j);
        part.push(j);
      }
    }
    parts.push(part.sort((a, b) => a - b));
  }
  return parts;
}

/** The mean of the product of conditional chances over the unit cube (Genz 1992, equations 3 to 5). */
function chanceOf(steps: BoxSteps, control: BoxControl): BoxProbability {
  const y = new Float64Array(steps.length);
  const range: [number, number] = [0, 0];
  const last = steps.length - 1;
  const product = (point: Float64Array): number => {
    let chance = 1;
    for (let k = 0; k <= last; k++) {
      limitsAt(steps, k, y, range);
      chance *= intervalChance(range[0], range[1]);
      if (chance === 0) return 0;
      if (k < last) y[k] = quantileWithin(range[0], range[1], point[k]!);
    }
    return chance;
  };
  if (last === 0) return { chance: product(y), error: 0 };
  const { mean, error } = meanOverCube(product, last, control.random, control.tolerance ?? 1e-4);
  return { chance: mean, error };
}

/** The range that all limits of step k leave its variable, given those before. */
function limitsAt(steps: BoxSteps, k: number, y: Float64Array, range: [number, number]): void {
  range[0] = Number.NEGATIVE_INFINITY;
  range[1] = Number.POSITIVE_INFINITY;
  for (const { before, own, low, high } of steps[k]!) {
    let sum = 0;
    for (let m = 0; m < k; m++) sum += before[m]! * y[m]!;
    const a = (low - sum) / own;
    const b = (high - sum) / own;
    range[0] = Math.max(range[0], own > 0 ? a : b);
    range[1] = Math.min(range[1], own > 0 ? b : a);
  }
}

function requireBox(
  mean: ArrayLike<number>,
  covariance: ArrayLike<number>,
  low: ArrayLike<number>,
  high: ArrayLike<number>,
): void {
  const d = mean.length;
  if (covariance.length !== d * d || low.length !== d || high.length !== d) {
    throw new RangeError(`boxProbability: ${d} means need ${d * d} covariances and ${d} limits on each side`);
  }
  for (let i = 0; i < d; i++) {
    if (Number.isNaN(low[i]!) || Number.isNaN(high[i]!) || !Number.isFinite(mean[i]!)) {
      throw new RangeError(`boxProbability: element ${i} has a limit or a mean that is not a number`);
    }
    if (!(covariance[i * d + i]! >= 0)) {
      throw new RangeError(`boxProbability: the variance of element ${i} is ${covariance[i * d + i]}`);
    }
  }
}

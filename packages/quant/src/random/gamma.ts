import { normalQuantile } from '../distributions/normal.ts';
import type { Uniform } from './uniform.ts';

/**
 * Gamma variate of the given shape and scale (mean shape x scale).
 *
 * G. Marsaglia and W. W. Tsang 2000, A simple method for generating gamma variables, ACM Transactions on Mathematical
 * Software 26:363-372; a shape below 1 by their remark, gamma(shape + 1) x U^(1 / shape).
 */
export function gammaDraw(uniform: Uniform, shape: number, scale: number): number {
  if (!(shape > 0 && Number.isFinite(shape)))
    throw new RangeError(`gamma: shape must be above 0, got ${shape}`);
  if (!(scale > 0 && Number.isFinite(scale)))
    throw new RangeError(`gamma: scale must be above 0, got ${scale}`);
  if (shape < 1) return scale * unitGamma(uniform, shape + 1) * uniform() ** (1 / shape);
  return scale * unitGamma(uniform, shape);
}

function unitGamma(uniform: Uniform, shape: number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normalQuantile(uniform());
    const cube = (1 + c * x) ** 3;
    if (cube <= 0) continue;
    if (Math.log(uniform()) < 0.5 * x * x + d * (1 - cube + Math.log(cube))) return d * cube;
  }
}

/** Beta variate as the share of one gamma in the sum of two (Devroye 1986, section IX.4.1). */
export function betaDraw(uniform: Uniform, a: number, b: number): number {
  if (!(a > 0 && b > 0)) throw new RangeError(`beta: both parameters must be above 0, got ${a} and ${b}`);
  for (;;) {
    const first = gammaDraw(uniform, a, 1);
    const sum = first + gammaDraw(uniform, b, 1);
    // With both parameters tiny both gammas may underflow to zero; the draw is then taken anew.
    if (sum > 0) return first / sum;
  }
}

import { solveAmong } from './small-systems.ts';

const MOST_ROUNDS = 60;

/**
 * The change d that maximises b'd - ½ d'Ad with every element of d within its bounds, for a small positive definite A;
 * elements not named in `among` stay 0. By exchange of the set of elements held at a bound: those that pass one are held,
 * those whose multiplier has the wrong sign are let go, one at a time (J. Nocedal and S. J. Wright 2006, Numerical
 * Optimization, 2nd ed., section 16.5).
 *
 * @param a row by row, size × size
 * @param low not above 0
 * @param high not below 0; no upper bounds unless given
 * @returns null when A is singular over the elements that move
 */
export function maximiseWithin(
  a: Float64Array,
  size: number,
  among: readonly number[],
  b: Float64Array,
  low: Float64Array,
  high: Float64Array = new Float64Array(size).fill(Number.POSITIVE_INFINITY),
): Float64Array | null {
  const bound = new Map<number, number>();
  let change = new Float64Array(size);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const moving = among.filter((i) => !bound.has(i));
    const rest = b.slice();
    for (const i of moving) for (const [k, at] of bound) rest[i] = rest[i]! - a[i * size + k]! * at;
    const solved = solveAmong(a, size, moving, rest);
    if (!solved) return null;
    for (const [k, at] of bound) solved[k] = at;
    change = new Float64Array(solved);
    let passing = 0;
    for (const i of moving) {
      if (change[i]! >= low[i]! && change[i]! <= high[i]!) continue;
      bound.set(i, change[i]! < low[i]! ? low[i]! : high[i]!);
      passing++;
    }
    if (passing > 0) continue;
    let wrong = -1;
    let most = 0;
    for (const [i, at] of bound) {
      let multiplier = b[i]!;
      for (const k of among) multiplier -= a[i * size + k]! * change[k]!;
      const inward = at === low[i]! ? multiplier : -multiplier;
      if (inward > most) {
        most = inward;
        wrong = i;
      }
    }
    if (wrong < 0) break;
    bound.delete(wrong);
  }
  for (const i of among) change[i] = Math.min(high[i]!, Math.max(low[i]!, change[i]!));
  return change;
}

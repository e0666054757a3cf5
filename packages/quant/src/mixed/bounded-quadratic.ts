import { solveAmong } from './small-systems.ts';

const MOST_ROUNDS = 60;

/**
 * The change d that maximises b'd - ½ d'Ad with no element of d below its bound, for a small positive definite A; elements
 * not named in `among` stay 0. By exchange of the set of elements held at their bound: those that pass it are held,
 * those whose multiplier has the wrong sign are let go, one at a time (J. Nocedal and S. J. Wright 2006, Numerical
 * Optimization, 2nd ed., section 16.5).
 *
 * @param a row by row, size × size
 * @returns null when A is singular over the elements that move
 */
export function maximiseWithin(
  a: Float64Array,
  size: number,
  among: readonly number[],
  b: Float64Array,
  bounds: Float64Array,
): Float64Array | null {
  const bound = new Set<number>();
  let change = new Float64Array(size);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const moving = among.filter((i) => !bound.has(i));
    const rest = b.slice();
    for (const i of moving) for (const k of bound) rest[i] = rest[i]! - a[i * size + k]! * bounds[k]!;
    const solved = solveAmong(a, size, moving, rest);
    if (!solved) return null;
    for (const k of bound) solved[k] = bounds[k]!;
    change = new Float64Array(solved);
    const passing = moving.filter((i) => change[i]! < bounds[i]!);
    for (const i of passing) bound.add(i);
    if (passing.length > 0) continue;
    let wrong = -1;
    let most = 0;
    for (const i of bound) {
      let multiplier = b[i]!;
      for (const k of among) multiplier -= a[i * size + k]! * change[k]!;
      if (multiplier > most) {
        most = multiplier;
        wrong = i;
      }
    }
    if (wrong < 0) break;
    bound.delete(wrong);
  }
  for (const i of among) change[i] = Math.max(bounds[i]!, change[i]!);
  return change;
}

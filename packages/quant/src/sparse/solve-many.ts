import type { CholeskyFactor } from './cholesky.ts';
import { solve } from './solve.ts';

/** Right-hand sides that are solved side by side, so that the factor is read once for all of them. */
const TOGETHER = 4;

/**
 * Solves A x = b in place for several right-hand sides; the same numbers as `solve` one by one, bit for bit.
 *
 * @param factor Cholesky factor of A
 * @param sides right-hand sides on entry, solutions on return; in the rows of A
 */
export function solveMany(factor: CholeskyFactor, sides: readonly Float64Array[]): void {
  const { order, size } = factor.symbolic;
  const full = sides.length - (sides.length % TOGETHER);
  for (let first = 0; first < full; first += TOGETHER) {
    const group = sides.slice(first, first + TOGETHER);
    const x = new Float64Array(TOGETHER * size);
    group.forEach((b, r) => {
      for (let k = 0; k < size; k++) x[TOGETHER * k + r] = b[order[k]!]!;
    });
    forwardFour(factor, x);
    backwardFour(factor, x);
    group.forEach((b, r) => {
      for (let k = 0; k < size; k++) b[order[k]!] = x[TOGETHER * k + r]!;
    });
  }
  for (let k = full; k < sides.length; k++) solve(factor, sides[k]!);
}

/** L X = B in place, four columns side by side, in the order of elimination. */
function forwardFour({ symbolic, panels }: CholeskyFactor, x: Float64Array): void {
  const { supernodes, firstColumn, rowStart, rows, panelStart } = symbolic;
  for (let s = 0; s < supernodes; s++) {
    const begin = firstColumn[s]!;
    const width = firstColumn[s + 1]! - begin;
    const height = rowStart[s + 1]! - rowStart[s]!;
    for (let r = 0; r < height; r++) {
      const row = panelStart[s]! + r * width;
      const end = Math.min(r, width);
      let s0 = 0;
      let s1 = 0;
      let s2 = 0;
      let s3 = 0;
      for (let c = 0, at = 4 * begin; c < end; c++, at += 4) {
        const l = panels[row + c]!;
        s0 += l * x[at]!;
        s1 += l * x[at + 1]!;
        s2 += l * x[at + 2]!;
        s3 += l * x[at + 3]!;
      }
      const target = 4 * (r < width ? begin + r : rows[rowStart[s]! + r]!);
      const pivot = r < width ? panels[row + r]! : 1;
      x[target] = (x[target]! - s0) / pivot;
      x[target + 1] = (x[target + 1]! - s1) / pivot;
      x[target + 2] = (x[target + 2]! - s2) / pivot;
      x[target + 3] = (x[target + 3]! - s3) / pivot;
    }
  }
}

/** L' X = B in place, four columns side by side, in the order of elimination. */
function backwardFour({ symbolic, panels }: CholeskyFactor, x: Float64Array): void {
  const { supernodes, firstColumn, rowStart, rows, panelStart } = symbolic;
  for (let s = supernodes - 1; s >= 0; s--) {
    const begin = firstColumn[s]!;
    const width = firstColumn[s + 1]! - begin;
    const height = rowStart[s + 1]! - rowStart[s]!;
    for (let r = height - 1; r >= 0; r--) {
      const row = panelStart[s]! + r * width;
      const end = Math.min(r, width);
      const source = 4 * (r < width ? begin + r : rows[rowStart[s]! + r]!);
      const pivot = r < width ? panels[row + r]! : 1;
      const x0 = x[source]! / pivot;
      const x1 = x[source + 1]! / pivot;
      const x2 = x[source + 2]! / pivot;
      const x3 = x[source + 3]! / pivot;
      if (r < width) {
        x[source] = x0;
        x[source + 1] = x1;
        x[source + 2] = x2;
        x[source + 3] = x3;
      }
      for (let c = 0, at = 4 * begin; c < end; c++, at += 4) {
        const l = panels[row + c]!;
        x[at] = x[at]! - l * x0;
        x[at + 1] = x[at + 1]! - l * x1;
        x[at + 2] = x[at + 2]! - l * x2;
        x[at + 3] = x[at + 3]! - l * x3;
      }
    }
  }
}

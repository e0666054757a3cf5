import type { CholeskyFactor } from './cholesky.ts';

/**
 * Solves A x = b in place.
 *
 * @param factor Cholesky factor of A
 * @param b right-hand side on entry, solution on return; in the rows of A
 */
export function solve(factor: CholeskyFactor, b: Float64Array): void {
  const { order, size } = factor.symbolic;
  const x = new Float64Array(size);
  for (let k = 0; k < size; k++) x[k] = b[order[k]!]!;
  forward(factor, x);
  backward(factor, x);
  for (let k = 0; k < size; k++) b[order[k]!] = x[k]!;
}

/**
 * Solves L' P x = z in place, so that x has covariance A⁻¹ where z is of independent unit normal draws.
 *
 * @param z in the order of elimination on entry; x in the rows of A on return
 */
export function solveTransposed(factor: CholeskyFactor, z: Float64Array): void {
  const { order, size } = factor.symbolic;
  const x = z.slice();
  backward(factor, x);
  for (let k = 0; k < size; k++) z[order[k]!] = x[k]!;
}

/** L x = b in place, in the order of elimination. */
function forward({ symbolic, panels }: CholeskyFactor, x: Float64Array): void {
  const { supernodes, firstColumn, rowStart, rows, panelStart } = symbolic;
  for (let s = 0; s < supernodes; s++) {
    const begin = firstColumn[s]!;
    const width = firstColumn[s + 1]! - begin;
    const height = rowStart[s + 1]! - rowStart[s]!;
    for (let r = 0; r < height; r++) {
      const row = panelStart[s]! + r * width;
      const end = Math.min(r, width);
      let sum = 0;
      for (let c = 0; c < end; c++) sum += panels[row + c]! * x[begin + c]!;
      if (r < width) {
        x[begin + r] = (x[begin + r]! - sum) / panels[row + r]!;
      } else {
        const target = rows[rowStart[s]! + r]!;
        x[target] = x[target]! - sum;
      }
    }
  }
}

/** L' x = b in place, in the order of elimination. */
function backward({ symbolic, panels }: CholeskyFactor, x: Float64Array): void {
  const { supernodes, firstColumn, rowStart, rows, panelStart } = symbolic;
  for (let s = supernodes - 1; s >= 0; s--) {
    const begin = firstColumn[s]!;
    const width = firstColumn[s + 1]! - begin;
    const height = rowStart[s + 1]! - rowStart[s]!;
    for (let r = height - 1; r >= 0; r--) {
      const row = panelStart[s]! + r * width;
      const end = Math.min(r, width);
      let xr: number;
      if (r < width) {
        xr = x[begin + r]! / panels[row + r]!;
        x[begin + r] = xr;
      } else {
        xr = x[rows[rowStart[s]! + r]!]!;
      }
      for (let c = 0; c < end; c++) x[begin + c] = x[begin + c]! - panels[row + c]! * xr;
    }
  }
}

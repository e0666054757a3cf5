import { symmetricEigen } from '../dense/symmetric-eigen.ts';

const MOST_ROUNDS = 2000;
const SETTLED_BELOW = 1e-13;

/**
 * The correlation matrix nearest to a symmetric matrix in the Frobenius norm, by alternating projections with Dykstra's
 * correction on the matrices with eigenvalues of at least `least` and on those with ones on the diagonal (N. J. Higham 2002, IMA
 * Journal of Numerical Analysis 22:329-343, algorithm 3.3).
 *
 * @param matrix symmetric, size × size row by row
 * @param least least eigenvalue wanted, from 0 to below 1
 */
export function nearestCorrelation(matrix: ArrayLike<number>, size: number, least = 0): Float64Array {
  let y = Float64Array.from(matrix);
  let correction = new Float64Array(size * size);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const r = y.map((value, e) => value - correction[e]!);
    const x = withEigenvaluesFrom(r, size, least);
    correction = x.map((value, e) => value - r[e]!);
    const next = x.slice();
    for (let i = 0; i < size; i++) next[i * size + i] = 1;
    const change = next.reduce((most, value, e) => Math.max(most, Math.abs(value - y[e]!)), 0);
    y = next;
    if (change < SETTLED_BELOW) break;
  }
  return y;
}

/** The nearest symmetric matrix whose eigenvalues are at least `least`. */
function withEigenvaluesFrom(matrix: Float64Array, size: number, least: number): Float64Array {
  const { values, vectors } = symmetricEigen(matrix, size);
  const raised = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = 0; k < size; k++) {
        sum += Math.max(least, values[k]!) * vectors[i * size + k]! * vectors[j * size + k]!;
      }
      raised[i * size + j] = sum;
      raised[j * size + i] = sum;
    }
  }
  return raised;
}

/** Eigenvalues of a symmetric matrix and, in the columns of `vectors` (row by row), their vectors of length 1. */
export interface SymmetricEigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

const MOST_SWEEPS = 60;

/**
 * Eigenvalues and eigenvectors by cyclic Jacobi rotations (G. H. Golub and C. F. Van Loan 2013, Matrix Computations, 4th
 * ed., algorithms 8.5.1 and 8.5.2); for small matrices.
 *
 * @param matrix symmetric, size × size row by row; left as it is
 */
export function symmetricEigen(matrix: Float64Array, size: number): SymmetricEigen {
  const a = matrix.slice();
  const vectors = new Float64Array(size * size);
  for (let i = 0; i < size; i++) vectors[i * size + i] = 1;
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let off = 0;
    let all = 0;
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        all += a[i * size + j]! ** 2;
        if (i !== j) off += a[i * size + j]! ** 2;
      }
    }
    if (off <= 1e-32 * all) break;
    for (let p = 0; p < size - 1; p++) for (let q = p + 1; q < size; q++) rotate(a, vectors, size, p, q);
  }
  return { values: Float64Array.from({ length: size }, (_, i) => a[i * size + i]!), vectors };
}

/** Makes a[p][q] zero. */
function rotate(a: Float64Array, vectors: Float64Array, size: number, p: number, q: number): void {
  const apq = a[p * size + q]!;
  if (apq === 0) return;
  const tau = (a[q * size + q]! - a[p * size + p]!) / (2 * apq);
  const t = (tau >= 0 ? 1 : -1) / (Math.abs(tau) + Math.sqrt(1 + tau * tau));
  const c = 1 / Math.sqrt(1 + t * t);
  const s = t * c;
  const turn = (data: Float64Array, x: number, y: number): void => {
    const first = data[x]!;
    const second = data[y]!;
    data[x] = c * first - s * second;
    data[y] = s * first + c * second;
  };
  for (let k = 0; k < size; k++) turn(a, k * size + p, k * size + q);
  for (let k = 0; k < size; k++) turn(a, p * size + k, q * size + k);
  for (let k = 0; k < size; k++) turn(vectors, k * size + p, k * size + q);
}

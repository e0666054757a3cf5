/** The inverse of a small positive definite matrix with its log-determinant. */
export interface SmallInverse {
  /** Row by row. */
  readonly inverse: Float64Array;
  readonly logDeterminant: number;
}

/** Pivots below this share of a diagonal entry mark a matrix as singular. */
const SINGULAR_BELOW = 1e-12;

/**
 * The lower Cholesky factor.
 *
 * @param matrix size × size row by row
 * @returns null when the matrix is not clearly positive definite
 */
export function lowerFactor(matrix: ArrayLike<number>, size: number): Float64Array | null {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= lower[i * size + k]! * lower[j * size + k]!;
      if (j < i) lower[i * size + j] = sum / lower[j * size + j]!;
      else if (sum > SINGULAR_BELOW * matrix[i * size + i]!) lower[i * size + i] = Math.sqrt(sum);
      else return null;
    }
  }
  return lower;
}

/** Inverse and log-determinant by Cholesky factorisation; null when the matrix is not clearly positive definite. */
export function invertSmall(matrix: ArrayLike<number>, size: number): SmallInverse | null {
  const lower = lowerFactor(matrix, size);
  if (!lower) return null;
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) logDeterminant += 2 * Math.log(lower[i * size + i]!);
  const inverse = new Float64Array(size * size);
  const x = new Float64Array(size);
  for (let c = 0; c < size; c++) {
    for (let i = 0; i < size; i++) {
      let sum = i === c ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= lower[i * size + k]! * x[k]!;
      x[i] = sum / lower[i * size + i]!;
    }
    for (let i = size - 1; i >= 0; i--) {
      let sum = x[i]!;
      for (let k = i + 1; k < size; k++) sum -= lower[k * size + i]! * x[k]!;
      x[i] = sum / lower[i * size + i]!;
    }
    for (let i = 0; i < size; i++) inverse[i * size + c] = x[i]!;
  }
  return { inverse, logDeterminant };
}

/** The product of two matrices of size × size. */
export function product(a: ArrayLike<number>, b: ArrayLike<number>, size: number): Float64Array {
  const c = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < size; k++) {
      const value = a[i * size + k]!;
      for (let j = 0; j < size; j++) c[i * size + j] = c[i * size + j]! + value * b[k * size + j]!;
    }
  }
  return c;
}

/** The rows and columns named in `among`, in their order. */
export function submatrix(matrix: ArrayLike<number>, size: number, among: readonly number[]): Float64Array {
  const part = new Float64Array(among.length ** 2);
  among.forEach((i, a) => {
    among.forEach((j, b) => {
      part[a * among.length + b] = matrix[i * size + j]!;
    });
  });
  return part;
}

/** Pivots below this share of a diagonal entry mark a matrix as singular. */
const SINGULAR_BELOW = 1e-9;

/**
 * Solves A x = b for a small positive definite A, over the rows named in `among`; other rows of x are zero.
 *
 * @param a row by row, size × size
 * @returns null when A is singular or not positive definite there
 */
export function solveAmong(
  a: Float64Array,
  size: number,
  among: readonly number[],
  b: Float64Array,
): Float64Array | null {
  const lower = factorAmong(a, size, among);
  if (!lower) return null;
  const n = among.length;
  const x = new Float64Array(size);
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = b[among[i]!]!;
    for (let k = 0; k < i; k++) sum -= lower[i * n + k]! * z[k]!;
    z[i] = sum / lower[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = z[i]!;
    for (let k = i + 1; k < n; k++) sum -= lower[k * n + i]! * z[k]!;
    z[i] = sum / lower[i * n + i]!;
    x[among[i]!] = z[i]!;
  }
  return x;
}

/** The inverse of A over the rows named in `among`, in their order and row by row; null when A is singular there. */
export function inverseAmong(a: Float64Array, size: number, among: readonly number[]): Float64Array | null {
  const n = among.length;
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const unit = new Float64Array(size);
    unit[among[j]!] = 1;
    const column = solveAmong(a, size, among, unit);
    if (!column) return null;
    for (let i = 0; i < n; i++) inverse[i * n + j] = column[among[i]!]!;
  }
  return inverse;
}

function factorAmong(a: Float64Array, size: number, among: readonly number[]): Float64Array | null {
  const n = among.length;
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[among[i]! * size + among[j]!]!;
      for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!;
      if (j < i) {
        lower[i * n + j] = sum / lower[j * n + j]!;
      } else if (sum > SINGULAR_BELOW * a[among[i]! * size + among[i]!]!) {
        lower[i * n + i] = Math.sqrt(sum);
      } else {
        return null;
      }
    }
  }
  return lower;
}

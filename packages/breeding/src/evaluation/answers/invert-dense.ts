/**
 * Inverse of the leading part of a small symmetric matrix by its Cholesky factor; null where it is not positive definite.
 *
 * @param matrix row by row, size × size
 * @param free rows and columns of the part
 */
export function invertDense(matrix: Float64Array, size: number, free: number): Float64Array | null {
  const factor = new Float64Array(free * free);
  for (let j = 0; j < free; j++) {
    for (let i = j; i < free; i++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= factor[i * free + k]! * factor[j * free + k]!;
      if (i === j) {
        if (!(sum > 0)) return null;
        factor[j * free + j] = Math.sqrt(sum);
      } else factor[i * free + j] = sum / factor[j * free + j]!;
    }
  }
  const inverse = new Float64Array(free * free);
  for (let c = 0; c < free; c++) {
    const x = new Float64Array(free);
    x[c] = 1;
    for (let i = 0; i < free; i++) {
      for (let k = 0; k < i; k++) x[i] = x[i]! - factor[i * free + k]! * x[k]!;
      x[i] = x[i]! / factor[i * free + i]!;
    }
    for (let i = free - 1; i >= 0; i--) {
      for (let k = i + 1; k < free; k++) x[i] = x[i]! - factor[k * free + i]! * x[k]!;
      x[i] = x[i]! / factor[i * free + i]!;
    }
    for (let i = 0; i < free; i++) inverse[i * free + c] = x[i]!;
  }
  return inverse;
}

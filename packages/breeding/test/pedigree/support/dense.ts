import type { SparseSymmetric } from '@keelrow/quant';

/** A sparse symmetric matrix written out. */
export function writtenOut({ size, columnStart, rowIndex, values }: SparseSymmetric): number[][] {
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let j = 0; j < size; j++) {
    for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
      matrix[rowIndex[e]!]![j] = values[e]!;
      matrix[j]![rowIndex[e]!] = values[e]!;
    }
  }
  return matrix;
}

/** Inverse and log-determinant of a positive definite matrix by Gauss-Jordan elimination. */
export function inverted(matrix: readonly (readonly number[])[]): {
  inverse: number[][];
  logDeterminant: number;
} {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let logDeterminant = 0;
  for (let k = 0; k < size; k++) {
    const pivot = work[k]![k]!;
    logDeterminant += Math.log(pivot);
    work[k] = work[k]!.map((value) => value / pivot);
    for (let i = 0; i < size; i++) {
      const factor = work[i]![k]!;
      if (i === k || factor === 0) continue;
      work[i] = work[i]!.map((value, j) => value - factor * work[k]![j]!);
    }
  }
  return { inverse: work.map((row) => row.slice(size)), logDeterminant };
}

import type { Arbitrary } from 'fast-check';
import fc from 'fast-check';
import { seededRandom } from '../../src/random/seeded-random.ts';
import { type SparseSymmetric, symmetricFromEntries } from '../../src/sparse/symmetric.ts';

/** The full matrix, row by row. */
export function toDense(matrix: SparseSymmetric): number[][] {
  const full = Array.from({ length: matrix.size }, () => new Array<number>(matrix.size).fill(0));
  for (let j = 0; j < matrix.size; j++) {
    for (let e = matrix.columnStart[j]!; e < matrix.columnStart[j + 1]!; e++) {
      const i = matrix.rowIndex[e]!;
      full[i]![j] = matrix.values[e]!;
      full[j]![i] = matrix.values[e]!;
    }
  }
  return full;
}

/** Inverse and log-determinant by Gauss-Jordan elimination with row exchange; for tests only. */
export function denseInverse(matrix: readonly (readonly number[])[]): {
  inverse: number[][];
  logDeterminant: number;
} {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let logDeterminant = 0;
  for (let k = 0; k < size; k++) {
    let best = k;
    for (let i = k + 1; i < size; i++) if (Math.abs(work[i]![k]!) > Math.abs(work[best]![k]!)) best = i;
    [work[k], work[best]] = [work[best]!, work[k]!];
    const pivot = work[k]![k]!;
    logDeterminant += Math.log(Math.abs(pivot));
    work[k] = work[k]!.map((v) => v / pivot);
    for (let i = 0; i < size; i++) {
      const factor = work[i]![k]!;
      if (i === k || factor === 0) continue;
      work[i] = work[i]!.map((v, j) => v - factor * work[k]![j]!);
    }
  }
  return { inverse: work.map((row) => row.slice(size)), logDeterminant };
}

/** A sparse positive definite matrix: random off-diagonal entries, the diagonal larger than the sum of its row. */
export function randomPositiveDefinite(size: number, pairs: number, seed: number): SparseSymmetric {
  const random = seededRandom(seed);
  const rows: number[] = [];
  const columns: number[] = [];
  const values: number[] = [];
  const diagonal = new Array<number>(size).fill(0.1);
  for (let k = 0; k < pairs; k++) {
    const i = random.integer(size);
    const j = random.integer(size);
    if (i === j) continue;
    const value = random.normal();
    rows.push(i);
    columns.push(j);
    values.push(value);
    diagonal[i] = diagonal[i]! + Math.abs(value);
    diagonal[j] = diagonal[j]! + Math.abs(value);
  }
  diagonal.forEach((value, i) => {
    rows.push(i);
    columns.push(i);
    values.push(value);
  });
  return symmetricFromEntries(size, rows, columns, values);
}

/** Random positive definite matrices from nearly empty to nearly full. */
export const positiveDefinite: Arbitrary<SparseSymmetric> = fc
  .record({
    size: fc.integer({ min: 1, max: 70 }),
    fullness: fc.integer({ min: 0, max: 12 }),
    seed: fc.nat(),
  })
  .map(({ size, fullness, seed }) => randomPositiveDefinite(size, size * fullness, seed));

import type { SparseSymmetric } from './symmetric.ts';

/** Collects the pattern of a symmetric matrix column by column, the upper triangle with its diagonal. */
export class PatternBuilder {
  private readonly size: number;
  private readonly columnStart: Int32Array;
  private readonly seen: Int32Array;
  private rowIndex: Int32Array<ArrayBuffer>;
  private used = 0;
  private column = 0;

  constructor(size: number) {
    this.size = size;
    this.columnStart = new Int32Array(size + 1);
    this.seen = new Int32Array(size).fill(-1);
    this.rowIndex = new Int32Array(4 * size + 1024);
    this.touch(0);
  }

  /** Marks an entry of the current column; rows below the diagonal are passed over. */
  touch(row: number): void {
    if (row > this.column || this.seen[row] === this.column) return;
    this.seen[row] = this.column;
    if (this.used === this.rowIndex.length) {
      const larger = new Int32Array(2 * this.rowIndex.length);
      larger.set(this.rowIndex);
      this.rowIndex = larger;
    }
    this.rowIndex[this.used++] = row;
  }

  /** Ends the current column; the next one begins with its diagonal. */
  endColumn(): void {
    this.rowIndex.subarray(this.columnStart[this.column]!, this.used).sort();
    this.columnStart[++this.column] = this.used;
    if (this.column < this.size) this.touch(this.column);
  }

  /** The pattern, with values of zero. */
  done(): SparseSymmetric {
    const rowIndex = this.rowIndex.slice(0, this.used);
    return { size: this.size, columnStart: this.columnStart, rowIndex, values: new Float64Array(this.used) };
  }
}

/** Place of the entry (row, column), row ≤ column, among the entries of a pattern that has it. */
export function entryAt(pattern: SparseSymmetric, row: number, column: number): number {
  let low = pattern.columnStart[column]!;
  let high = pattern.columnStart[column + 1]! - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (pattern.rowIndex[middle]! < row) low = middle + 1;
    else high = middle;
  }
  return low;
}

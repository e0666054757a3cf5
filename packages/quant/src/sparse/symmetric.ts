/**
 * A sparse symmetric matrix by the columns of its upper triangle, diagonal included: column j holds the rows
 * `rowIndex[columnStart[j]] … rowIndex[columnStart[j + 1] - 1]`, ascending, none above j.
 */
export interface SparseSymmetric {
  readonly size: number;
  readonly columnStart: Int32Array;
  readonly rowIndex: Int32Array;
  readonly values: Float64Array;
}

/**
 * The sparse symmetric matrix that sums the given entries. Each entry (i, j) stands for itself and for (j, i); give a
 * pair once. Entries of the same place add up.
 *
 * @param size rows and columns
 * @param rows row of each entry, from 0
 * @param columns column of each entry, from 0
 * @param values value of each entry
 * @throws RangeError when a row or a column lies outside the matrix
 */
export function symmetricFromEntries(
  size: number,
  rows: ArrayLike<number>,
  columns: ArrayLike<number>,
  values: ArrayLike<number>,
): SparseSymmetric {
  const entries = values.length;
  // Two stable counting sorts, by row and then by column, leave each column's rows ascending. Column and value travel along
  // in the first, so that the second reads them in order.
  const rowStart = new Int32Array(size + 1);
  const columnStart = new Int32Array(size + 1);
  for (let e = 0; e < entries; e++) {
    const row = Math.min(rows[e]!, columns[e]!);
    const column = Math.max(rows[e]!, columns[e]!);
    if (!(row >= 0 && column < size))
      throw new RangeError(`sparse entry ${e}: place ${row >= 0 ? column : row} is outside 0 … ${size - 1}`);
    rowStart[row + 1] = rowStart[row + 1]! + 1;
    columnStart[column + 1] = columnStart[column + 1]! + 1;
  }
  for (let k = 0; k < size; k++) {
    rowStart[k + 1] = rowStart[k + 1]! + rowStart[k]!;
    columnStart[k + 1] = columnStart[k + 1]! + columnStart[k]!;
  }
  const columnByRow = new Int32Array(entries);
  const valueByRow = new Float64Array(entries);
  const next = rowStart.slice();
  for (let e = 0; e < entries; e++) {
    const row = Math.min(rows[e]!, columns[e]!);
    const place = next[row]!;
    next[row] = place + 1;
    columnByRow[place] = Math.max(rows[e]!, columns[e]!);
    valueByRow[place] = values[e]!;
  }
  const rowIndex = new Int32Array(entries);
  const sorted = new Float64Array(entries);
  next.set(columnStart);
  for (let row = 0; row < size; row++) {
    for (let k = rowStart[row]!; k < rowStart[row + 1]!; k++) {
      const column = columnByRow[k]!;
      const place = next[column]!;
      next[column] = place + 1;
      rowIndex[place] = row;
      sorted[place] = valueByRow[k]!;
    }
  }
  return withEntriesSummed({ size, columnStart, rowIndex, values: sorted });
}

/** Adds up entries of the same place, which stand side by side; in place as far as that goes. */
function withEntriesSummed({ size, columnStart, rowIndex, values }: SparseSymmetric): SparseSymmetric {
  let used = 0;
  let from = 0;
  for (let column = 0; column < size; column++) {
    const end = columnStart[column + 1]!;
    const first = used;
    for (let e = from; e < end; e++) {
      if (used > first && rowIndex[used - 1] === rowIndex[e]) {
        values[used - 1] = values[used - 1]! + values[e]!;
      } else {
        rowIndex[used] = rowIndex[e]!;
        values[used++] = values[e]!;
      }
    }
    from = end;
    columnStart[column + 1] = used;
  }
  return { size, columnStart, rowIndex: rowIndex.subarray(0, used), values: values.subarray(0, used) };
}

/** The identity matrix in sparse form. */
export function sparseIdentity(size: number): SparseSymmetric {
  const columnStart = new Int32Array(size + 1);
  for (let j = 0; j <= size; j++) columnStart[j] = j;
  return { size, columnStart, rowIndex: columnStart.slice(0, size), values: new Float64Array(size).fill(1) };
}

/** x'Ax, where x is `vector[offset … offset + size - 1]`. */
export function quadraticForm(matrix: SparseSymmetric, vector: Float64Array, offset = 0): number {
  let sum = 0;
  for (let j = 0; j < matrix.size; j++) {
    const xj = vector[offset + j]!;
    for (let e = matrix.columnStart[j]!; e < matrix.columnStart[j + 1]!; e++) {
      const i = matrix.rowIndex[e]!;
      const term = matrix.values[e]! * vector[offset + i]! * xj;
      sum += i === j ? term : 2 * term;
    }
  }
  return sum;
}

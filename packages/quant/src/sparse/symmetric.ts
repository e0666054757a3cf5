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
  // Two stable counting sorts, by row and then by column, leave each column's rows ascending.
  const byRow = countingOrder(size, entries, (e) => Math.min(rows[e]!, columns[e]!));
  const byColumn = countingOrder(size, entries, (e) => Math.max(rows[byRow[e]!]!, columns[byRow[e]!]!));
  const columnStart = new Int32Array(size + 1);
  const rowIndex = new Int32Array(entries);
  const summed = new Float64Array(entries);
  let used = 0;
  let column = 0;
  for (let k = 0; k < entries; k++) {
    const e = byRow[byColumn[k]!]!;
    const row = Math.min(rows[e]!, columns[e]!);
    const target = Math.max(rows[e]!, columns[e]!);
    while (column < target) columnStart[++column] = used;
    if (used > columnStart[target]! && rowIndex[used - 1] === row) {
      summed[used - 1] = summed[used - 1]! + values[e]!;
    } else {
      rowIndex[used] = row;
      summed[used] = values[e]!;
      used++;
    }
  }
  while (column < size) columnStart[++column] = used;
  return { size, columnStart, rowIndex: rowIndex.slice(0, used), values: summed.slice(0, used) };
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

/** Indices 0 … count - 1 in ascending order of their key, equal keys as they came. */
function countingOrder(size: number, count: number, keyOf: (index: number) => number): Int32Array {
  const start = new Int32Array(size + 1);
  for (let e = 0; e < count; e++) {
    const key = keyOf(e);
    if (!(key >= 0 && key < size))
      throw new RangeError(`sparse entry ${e}: place ${key} is outside 0 … ${size - 1}`);
    start[key + 1] = start[key + 1]! + 1;
  }
  for (let k = 0; k < size; k++) start[k + 1] = start[k + 1]! + start[k]!;
  const order = new Int32Array(count);
  for (let e = 0; e < count; e++) {
    const key = keyOf(e);
    const place = start[key]!;
    start[key] = place + 1;
    order[place] = e;
  }
  return order;
}

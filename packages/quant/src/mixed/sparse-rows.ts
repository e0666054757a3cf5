/** A sparse matrix by rows: row k holds the entries start[k] … start[k + 1] - 1. */
export interface SparseRows {
  readonly count: number;
  readonly width: number;
  readonly start: Int32Array;
  readonly column: Int32Array;
  readonly value: Float64Array;
}

/** What one term adds to each row: at most one entry, in column `at[k]` (-1: none). */
export interface RowEntries {
  readonly at: Int32Array;
  /** Null where every entry is 1. */
  readonly value: Float64Array | null;
}

/** Lays the entries of several terms side by side; their columns are numbered over all terms already. */
export function sparseRows(count: number, width: number, parts: readonly RowEntries[]): SparseRows {
  const start = new Int32Array(count + 1);
  for (let k = 0; k < count; k++) {
    let entries = 0;
    for (const part of parts) if (part.at[k]! >= 0) entries++;
    start[k + 1] = start[k]! + entries;
  }
  const column = new Int32Array(start[count]!);
  const value = new Float64Array(start[count]!);
  let filled = 0;
  for (let k = 0; k < count; k++) {
    for (const part of parts) {
      if (part.at[k]! < 0) continue;
      column[filled] = part.at[k]!;
      value[filled] = part.value ? part.value[k]! : 1;
      filled++;
    }
  }
  return { count, width, start, column, value };
}

/** A sparse matrix by columns: column c holds the entries start[c] … start[c + 1] - 1. */
export interface SparseColumns {
  readonly start: Int32Array;
  readonly row: Int32Array;
  readonly value: Float64Array;
}

/** The same matrix by columns, the rows of each ascending. */
export function byColumn(w: SparseRows): SparseColumns {
  const start = new Int32Array(w.width + 1);
  for (const c of w.column) start[c + 1] = start[c + 1]! + 1;
  for (let c = 0; c < w.width; c++) start[c + 1] = start[c + 1]! + start[c]!;
  const fill = start.slice(0, w.width);
  const row = new Int32Array(w.column.length);
  const value = new Float64Array(w.column.length);
  for (let k = 0; k < w.count; k++) {
    for (let e = w.start[k]!; e < w.start[k + 1]!; e++) {
      const place = fill[w.column[e]!]!;
      fill[w.column[e]!] = place + 1;
      row[place] = k;
      value[place] = w.value[e]!;
    }
  }
  return { start, row, value };
}

/** W' R y, R diagonal. */
export function transposedProduct(w: SparseRows, weights: Float64Array, y: Float64Array): Float64Array {
  const product = new Float64Array(w.width);
  for (let k = 0; k < w.count; k++) {
    const ry = weights[k]! * y[k]!;
    for (let e = w.start[k]!; e < w.start[k + 1]!; e++) {
      const c = w.column[e]!;
      product[c] = product[c]! + w.value[e]! * ry;
    }
  }
  return product;
}

/** y - W b. */
export function residualsOf(w: SparseRows, y: Float64Array, b: Float64Array): Float64Array {
  const residuals = y.slice();
  for (let k = 0; k < w.count; k++) {
    let fitted = 0;
    for (let e = w.start[k]!; e < w.start[k + 1]!; e++) fitted += w.value[e]! * b[w.column[e]!]!;
    residuals[k] = residuals[k]! - fitted;
  }
  return residuals;
}

/** Σ weightₖ xₖ yₖ. */
export function weightedProduct(weights: Float64Array, x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < weights.length; k++) sum += weights[k]! * x[k]! * y[k]!;
  return sum;
}

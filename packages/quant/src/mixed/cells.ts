import type { Table } from './model.ts';
import { ModelError } from './model-error.ts';

/** Rows of a table that have every cell that a model needs. */
export interface CompleteRows {
  /** Indices into the table's columns. */
  readonly rows: Int32Array;
  readonly omitted: number;
  /** Columns in which the text NA was read as a missing cell. */
  readonly readAsMissing: readonly string[];
}

/**
 * Finds the rows without a missing cell in the used columns. A cell is missing when it is empty, blank or NA.
 *
 * @throws ModelError when the columns differ in length, or when no row is complete
 */
export function completeRows(table: Table, used: readonly string[]): CompleteRows {
  const cells = used.map((column) => table.columns.get(column)!);
  const total = cells[0]?.length ?? 0;
  used.forEach((column, c) => {
    if (cells[c]!.length !== total) {
      throw new ModelError(
        `column "${column}" has ${cells[c]!.length} cells, "${used[0]}" has ${total}`,
        'Give every column one cell per row',
        { column },
      );
    }
  });
  const rows = new Int32Array(total);
  const missing = new Array<number>(used.length).fill(0);
  const named = new Set<string>();
  let kept = 0;
  for (let i = 0; i < total; i++) {
    let complete = true;
    for (let c = 0; c < cells.length; c++) {
      const cell = cells[c]![i]!.trim();
      if (cell !== '' && cell !== 'NA') continue;
      complete = false;
      missing[c] = missing[c]! + 1;
      if (cell === 'NA') named.add(used[c]!);
    }
    if (complete) rows[kept++] = i;
  }
  if (kept === 0) {
    const worst = missing.indexOf(Math.max(0, ...missing));
    const problem =
      total === 0
        ? 'the table has no rows'
        : `no row has all of ${used.map((column) => `"${column}"`).join(', ')}; "${used[worst]}" is missing in ${missing[worst]} of ${total} rows`;
    throw new ModelError(problem, 'Fill in the missing cells, or leave the emptiest column out of the model');
  }
  return { rows: rows.slice(0, kept), omitted: total - kept, readAsMissing: [...named] };
}

/** A decimal number as people and programs write it. */
export const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/**
 * The numbers of a column in the given rows.
 *
 * @throws ModelError with row and column for a cell that is no number
 */
export function numbersOf(table: Table, column: string, rows: Int32Array): Float64Array {
  const cells = table.columns.get(column)!;
  return Float64Array.from(rows, (i) => {
    const cell = cells[i]!.trim();
    const value = DECIMAL.test(cell) ? Number(cell) : Number.NaN;
    if (Number.isFinite(value)) return value;
    const comma = /^[+-]?\d+,\d+$/.test(cell);
    throw new ModelError(
      `"${cell}" is not a number`,
      comma
        ? 'Write decimals with a point'
        : 'Write a number, or leave the cell empty when the value is missing',
      { column, row: rowNumber(table, i) },
    );
  });
}

/**
 * Weights of the given rows, all ones where no column is named.
 *
 * @throws ModelError for a weight of zero or below
 */
export function weightsOf(table: Table, column: string | undefined, rows: Int32Array): Float64Array {
  if (column === undefined) return new Float64Array(rows.length).fill(1);
  const weights = numbersOf(table, column, rows);
  weights.forEach((weight, k) => {
    if (weight > 0) return;
    throw new ModelError(
      `a weight must be above 0, this one is ${weight}`,
      weight === 0 ? 'Leave the cell empty to leave the row out' : 'Mend the weight',
      { column, row: rowNumber(table, rows[k]!) },
    );
  });
  return weights;
}

/** The row of the file that a row of the table came from. */
export function rowNumber(table: Table, index: number): number {
  return table.rowNumbers?.[index] ?? index + 2;
}

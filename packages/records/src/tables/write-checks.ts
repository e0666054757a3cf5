import { TableError } from './table-error.ts';
import type { WriteColumn, WriteValue } from './write-types.ts';

/** Refuses a row with more values than the table has columns: they would be lost without a word. */
export function checkedRow(
  values: readonly WriteValue[],
  columns: readonly WriteColumn[],
  row: number,
): void {
  if (values.length <= columns.length) return;
  const problem = `Row ${row} has ${values.length} values, and the table has ${columns.length} columns.`;
  throw new TableError('cannot-write', problem, 'Give every value a column.', row);
}

/** A number that a table can hold: neither infinite nor the result of an impossible sum. */
export function checkedNumber(value: number, place: { row: number; column: number }): number {
  if (Number.isFinite(value)) return value;
  const problem = `Row ${place.row}, column ${place.column} should hold a number, but it is ${value}.`;
  throw new TableError('cannot-write', problem, 'Leave the cell empty where there is no number.', place.row);
}

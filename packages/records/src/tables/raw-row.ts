import { limits } from './limits.ts';
import { TableError } from './table-error.ts';
import type { Cell } from './table-types.ts';

/** A row as it stands in the file, before anything is known of headers. */
export interface RawRow {
  readonly row: number;
  readonly line?: number;
  readonly cells: readonly Cell[];
}

/** Refuses a row with more cells than a table may have columns. */
export function refuseTooWide(name: string, row: number, width: number): void {
  if (width <= limits.columns) return;
  throw new TableError(
    'too-large',
    `Row ${row} of ${name} has ${width} cells; a table may have ${limits.columns} columns.`,
    'Check that the file is a table with a record in each row, and delete the columns that are not needed.',
    row,
  );
}

/**
 * What can be written into a cell. Dates are written as ISO text (`2027-04-03`), in CSV and in spreadsheets alike: so they come
 * back exactly as they went out, whatever the reader's language, including days before 1900, which a spreadsheet's serial
 * numbers cannot hold, and partial dates.
 */
export type WriteValue = string | number | null;

export interface WriteColumn {
  readonly header: string;
  /** Width in characters, for spreadsheets; by the header's length if absent. */
  readonly width?: number;
}

export type WriteRows = AsyncIterable<readonly WriteValue[]> | Iterable<readonly WriteValue[]>;

export interface WriteSheet {
  /** At most 31 characters, none of them `[ ] : * ? / \`. */
  readonly name: string;
  readonly columns: readonly WriteColumn[];
  readonly rows: WriteRows;
}

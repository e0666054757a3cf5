export type TableErrorCode =
  | 'file-unreadable'
  | 'file-empty'
  | 'not-a-table'
  | 'damaged'
  | 'too-large'
  | 'no-such-sheet'
  | 'no-header'
  | 'quote-not-closed'
  | 'cannot-write';

/** A file that cannot be read or written as a table. The message tells the person what is wrong, where, and what mends it. */
export class TableError extends Error {
  override readonly name = 'TableError';
  readonly code: TableErrorCode;
  readonly problem: string;
  readonly remedy: string;
  /** Row as a spreadsheet program counts it, from 1, where the trouble has a place. */
  readonly row: number | undefined;

  constructor(code: TableErrorCode, problem: string, remedy: string, row?: number) {
    super(`${problem} ${remedy}`);
    this.code = code;
    this.problem = problem;
    this.remedy = remedy;
    this.row = row;
  }
}

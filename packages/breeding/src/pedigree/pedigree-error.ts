/** Parentage that cannot be: what is wrong, what would mend it, and the rows of the file concerned where known. */
export class PedigreeError extends Error {
  override readonly name = 'PedigreeError';
  readonly problem: string;
  readonly remedy: string;
  readonly rows: readonly number[];

  constructor(problem: string, remedy: string, rows: readonly (number | undefined)[] = []) {
    super(`${problem}. ${remedy}.`);
    this.problem = problem;
    this.remedy = remedy;
    this.rows = rows.filter((row) => row !== undefined);
  }
}

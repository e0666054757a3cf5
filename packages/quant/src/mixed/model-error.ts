/** What a model error is about, beyond its sentence. */
export interface ModelErrorPlace {
  readonly column?: string;
  /** Row of the table as the person counts: that of the file, header included. */
  readonly row?: number;
}

/**
 * A table or a model that cannot be fitted as given: says what is wrong, where, and what would mend it. Its message holds
 * all three; the parts are there for screens that show them apart.
 */
export class ModelError extends Error {
  override readonly name = 'ModelError';
  readonly problem: string;
  readonly remedy: string;
  readonly column: string | null;
  readonly row: number | null;

  constructor(problem: string, remedy: string, place: ModelErrorPlace = {}) {
    const where = [
      place.row === undefined ? '' : `row ${place.row}`,
      place.column === undefined ? '' : `column "${place.column}"`,
    ].filter((part) => part !== '');
    super(`${where.length > 0 ? `${where.join(', ')}: ` : ''}${problem}. ${remedy}.`);
    this.problem = problem;
    this.remedy = remedy;
    this.column = place.column ?? null;
    this.row = place.row ?? null;
  }
}

/** The fit was stopped from outside between two iterations. */
export class FitCancelledError extends Error {
  override readonly name = 'FitCancelledError';
  constructor() {
    super('the fit was stopped before it was done');
  }
}

/** Something wrong with one field of a record, in words for the person, and what would mend it. */
export interface FieldProblem {
  readonly field: string;
  readonly problem: string;
  readonly remedy?: string;
}

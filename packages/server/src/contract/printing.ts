import type { LabelForm, LabelLead, LabelPage } from '@keelrow/breeding/labels';
import type { LabelSubject } from '@keelrow/records';

export type { LabelRow, LabelSubject } from '@keelrow/records';

/** GET /api/labels?of=plants&place=bed-4 answers with LabelRow[]: plants in walking order, else by code. */

/** POST /api/labels/drawn answers with LabelsDrawn, POST /api/labels/pdf with a PDF. */
export interface LabelsWanted {
  readonly of: LabelSubject;
  /** Plants: code of the bed; all beds where it is not given. */
  readonly place?: string;
  /** Those picked, in the order in which they are printed; all where it is not given. */
  readonly codes?: readonly string[];
  readonly form: LabelForm;
  readonly lead: LabelLead;
  /** Labels of each. */
  readonly copies: number;
}

export interface LabelsDrawn {
  /** The first pages; shapes in millimetres. */
  readonly pages: readonly LabelPage[];
  readonly pagesInAll: number;
  readonly labels: number;
  /** What had to give way on single labels, in words; the first hundred. */
  readonly told: readonly string[];
}

import type { LabelForm, LabelLead, LabelPage } from '@keelrow/breeding/labels';
import type { LabelSubject, NoteGrid, RoundSheet } from '@keelrow/records';

export type { LabelRow, LabelSubject, RoundSheet } from '@keelrow/records';

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

/**
 * POST /api/round-sheets keeps a sheet under its number and answers with the RoundSheet; GET /api/round-sheets with the
 * latest of them, newest first; GET /api/round-sheets/:code/pdf?paper= with its PDF.
 */
export interface RoundToPrint {
  /** Code of the bed. */
  readonly place: string;
  /** Codes of its columns' traits. */
  readonly traits: readonly string[];
  /** Walked from its far end. */
  readonly fromEnd: boolean;
}

/** GET /api/round-sheets/:code?year=2031: what the sheet's boxes are, in the order in which they stand on it. */
export interface RoundToTypeIn {
  readonly sheet: RoundSheet;
  readonly grid: NoteGrid;
  /** Codes of people who may have walked. */
  readonly people: readonly { readonly code: string; readonly name: string | null }[];
}

import type { AnyRow, KindName } from '@keelrow/breeding/facts';
import type { ImportPlan, ImportProblem, ImportQuestion } from '@keelrow/records';

/** POST /api/imports?name=FILE (the body is the file) */
export interface Upload {
  readonly upload: string;
  readonly name: string;
  readonly bytes: number;
  readonly format: string;
  readonly sheets: readonly string[];
  readonly sheet: string | null;
  readonly headers: readonly string[];
  /** Row numbers as his spreadsheet shows them, with the cells as text. */
  readonly sample: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** What was noticed on reading: encoding, separator, skipped title rows. */
  readonly findings: readonly string[];
  readonly proposal: ImportPlan;
}

/** POST /api/imports/:upload/propose: read the file again as another sheet or another kind; answers with an Upload. */
export interface ProposalWanted {
  readonly sheet?: string | undefined;
  readonly kind?: KindName | undefined;
}

export type { ColumnUse, ImportPlan, ImportProblem, ImportQuestion, NewTrait } from '@keelrow/records';

/** POST /api/imports/:upload/preview { plan } */
export interface ImportPreview {
  readonly rows: number;
  /** First rows as they would be stored. */
  readonly first: readonly AnyRow[];
  readonly wouldStore: Readonly<Record<string, number>>;
  /** Records that the file has word for word and the programme too. */
  readonly alreadyThere: number;
  /** Records that are there with other values and would be changed. */
  readonly changed: number;
  readonly problems: readonly ImportProblem[];
  readonly problemCount: number;
  /** Things only the user can answer. */
  readonly questions: readonly ImportQuestion[];
  /** Records named by the file that are not in the programme, by kind. */
  readonly missing: readonly {
    readonly kind: KindName;
    readonly count: number;
    readonly codes: readonly string[];
    readonly canMake: boolean;
  }[];
}

/** POST /api/imports/:upload/store { plan } starts a job whose result is this. */
export interface ImportStored {
  readonly stored: Readonly<Record<string, number>>;
  readonly changed: number;
  readonly alreadyThere: number;
  readonly seconds: number;
}

import type { AnyRow, KindName } from '@keelrow/breeding/facts';

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

/** How a file is to be read. Proposed by the server, changed by the user. */
export interface ImportPlan {
  readonly kind: KindName;
  readonly sheet?: string | undefined;
  /** For each column of the file what it holds; null: left out. */
  readonly columns: readonly (ColumnUse | null)[];
  readonly dateOrder?: 'ymd' | 'dmy' | 'mdy' | undefined;
  readonly decimal?: '.' | ',' | undefined;
  /** Values for fields that have no column: { "on": "2030-06-01" }. */
  readonly constants?: Readonly<Record<string, string>> | undefined;
  /** Month and day, MM-DD, at which notes are dated where the file holds years alone. */
  readonly yearDay?: string | undefined;
  /** Kinds of which records that the file names and the programme lacks are made. */
  readonly make?: readonly KindName[] | undefined;
  /** Records that are there already with other values: refuse the file, or change them. */
  readonly ifThere?: 'refuse' | 'change' | undefined;
  /** Take a file in that was taken in before. */
  readonly again?: boolean | undefined;
}

/** A column holds a field of the kind, or (among notes) the values of one trait, or years. */
export type ColumnUse =
  | { readonly field: string; readonly unit?: string | undefined }
  | { readonly trait: string; readonly unit?: string | undefined; readonly newTrait?: NewTrait | undefined }
  | { readonly year: true };

export interface NewTrait {
  readonly name: string;
  readonly sort: 'measured' | 'counted' | 'scored' | 'dated' | 'classed' | 'written';
  readonly unit?: string | undefined;
}

/** POST /api/imports/:upload/preview { plan } */
export interface ImportPreview {
  readonly rows: number;
  /** First rows as they would be stored. */
  readonly first: readonly AnyRow[];
  readonly wouldStore: Readonly<Record<string, number>>;
  /** Records that the file has word for word and the programme too. */
  readonly alreadyThere: number;
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

export interface ImportProblem {
  readonly file?: string | undefined;
  readonly row: number | null;
  readonly column: string | null;
  readonly problem: string;
  readonly remedy?: string | undefined;
}

export interface ImportQuestion {
  readonly ask: 'date order' | 'decimal' | 'unit' | 'kind';
  readonly column: string;
  readonly words: string;
  readonly answers: readonly { readonly value: string; readonly words: string }[];
}

/** POST /api/imports/:upload/store { plan } starts a job whose result is this. */
export interface ImportStored {
  readonly stored: Readonly<Record<string, number>>;
  readonly alreadyThere: number;
  readonly seconds: number;
}

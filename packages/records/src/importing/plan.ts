import type { AnyRow, KindName } from '@keelrow/breeding/facts';

/** How a file is to be read: proposed by us, changed by the user. */
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

/**
 * Columns of notes that say of the plant itself which genet it is and where it stands: taken for plants that the file
 * makes, held against those that are there.
 */
export const plantColumns = { genet: 'plant.genet', place: 'plant.place' } as const;

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

export interface ImportProblem {
  readonly file?: string | undefined;
  readonly row: number | null;
  readonly column: string | null;
  readonly problem: string;
  readonly remedy?: string | undefined;
}

/** Something only the user can answer, with the answers that are possible. */
export interface ImportQuestion {
  readonly ask: 'date order' | 'decimal' | 'year day';
  readonly column: string;
  readonly words: string;
  readonly answers: readonly { readonly value: string; readonly words: string }[];
}

/** Records that a file names and the programme lacks. */
export interface Missing {
  readonly kind: KindName;
  readonly count: number;
  readonly codes: readonly string[];
  readonly canMake: boolean;
}

export interface ImportOutcome {
  /** Rows of the file that hold anything. */
  readonly rows: number;
  /** First rows as they are or would be stored. */
  readonly first: readonly AnyRow[];
  /** Records by kind that were or would be stored. */
  readonly stored: Readonly<Record<string, number>>;
  readonly changed: number;
  /** Records that the programme had already, word for word. */
  readonly alreadyThere: number;
  readonly problems: readonly ImportProblem[];
  readonly problemCount: number;
  readonly questions: readonly ImportQuestion[];
  readonly missing: readonly Missing[];
  /** What was noticed on reading the file. */
  readonly findings: readonly string[];
}

/** Kinds of which a record can be made from its code alone (a plant needs its genet, which is then made too). */
export const makeable: readonly KindName[] = [
  'genets',
  'plants',
  'places',
  'people',
  'taxa',
  'localities',
  'accessions',
  'traits',
];

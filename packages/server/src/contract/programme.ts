import type { KindName, ProgrammeSettings } from '@keelrow/breeding/facts';

/** GET /api/programme */
export interface ProgrammeState {
  readonly settings: ProgrammeSettings;
  /** Standing records of each kind. */
  readonly counts: Readonly<Record<KindName, number>>;
  /** Who is asking; null where nobody has signed in. */
  readonly person: { readonly code: string; readonly name: string; readonly role: Role } | null;
  /** The server was started for this computer alone, without sign-in. */
  readonly open: boolean;
  /** Today's date in the garden's time zone. */
  readonly today: string;
  /** Things the owner should know: a store on a network folder, a store without recent backup. */
  readonly warnings: readonly string[];
  readonly build: string;
}

export type Role = 'owner' | 'recorder' | 'guest';

/** Body of every answer with a status of 400 or more. */
export interface Refusal {
  readonly error: {
    /** What is wrong. */
    readonly problem: string;
    /** What would mend it. */
    readonly remedy?: string;
    /** Where: field, row and column, as far as known. */
    readonly where?: {
      readonly field?: string;
      readonly file?: string;
      readonly row?: number;
      readonly column?: string;
    };
  };
}

/** GET /api/jobs/:id — long work; DELETE stops it. */
export interface JobState<Result = unknown> {
  readonly id: string;
  readonly state: 'waiting' | 'running' | 'done' | 'failed' | 'stopped';
  readonly about: string;
  /** 0 to 1, or null where the end is not known. */
  readonly progress: number | null;
  readonly step: string;
  readonly result?: Result;
  readonly error?: Refusal['error'];
}

/** Answer to a request that starts long work. */
export interface JobStarted {
  readonly job: string;
}

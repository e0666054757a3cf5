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

/** GET /api/profiles: a profile of a genus as its file stands in the programme's folder. */
export interface ProfileShown {
  readonly name: string;
  /** Its name in full; the file's where it cannot be read. */
  readonly title: string;
  readonly genus: string | null;
  readonly text: string;
  readonly problems: readonly string[];
  readonly traits: number;
  /** Traits of it that the programme has not. */
  readonly missingTraits: readonly string[];
}

/** PUT /api/profiles/:name { text } · POST /api/profiles/:name/traits */
export interface TraitsTaken {
  readonly made: readonly string[];
}

/** POST /api/photos (the body is the picture); GET /api/photos/:hash answers with the picture. */
export interface PhotoKept {
  readonly hash: string;
  readonly mediaType: string;
  readonly bytes: number;
}

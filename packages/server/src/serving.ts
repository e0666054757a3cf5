import type { Programme } from '@keelrow/records';
import type { Jobs } from './jobs/jobs.ts';
import type { PlantLists } from './plant-lists.ts';
import type { Uploads } from './uploads.ts';

/** Where phones reach the server. */
export interface Reach {
  origins: readonly string[];
  /** Page that leads a phone through trusting this computer. */
  helper: string | null;
  /** SHA-256 fingerprint of the certificate that the page gives out. */
  fingerprint: string | null;
}

/** What the routes work with. */
export interface Serving {
  readonly programme: Programme;
  readonly jobs: Jobs;
  readonly plants: PlantLists;
  readonly uploads: Uploads;
  readonly open: boolean;
  /** How phones reach the server; filled in when it listens. */
  readonly reach: Reach;
  readonly build: string;
}

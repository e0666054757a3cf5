import type { Programme } from '@keelrow/records';
import type { Jobs } from './jobs/jobs.ts';
import type { PlantLists } from './plant-lists.ts';
import type { Uploads } from './uploads.ts';

/** What the routes work with. */
export interface Serving {
  readonly programme: Programme;
  readonly jobs: Jobs;
  readonly plants: PlantLists;
  readonly uploads: Uploads;
  readonly open: boolean;
  readonly build: string;
}

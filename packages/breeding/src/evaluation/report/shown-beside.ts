import type { Units } from '../../facts/index.ts';
import type { EstimatesReport } from '../report.ts';

/** What of a trait and its genets is shown beside the estimates. */
export interface Shown {
  readonly trait: EstimatesReport['trait'];
  readonly genets: ReadonlyMap<
    string,
    { readonly code: string; readonly name: string | null; readonly standard: boolean }
  >;
  /** What sentences speak; metric unless given. */
  readonly units?: Units;
}

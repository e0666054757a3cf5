import type { EstimatesReport } from '@keelrow/server/contract';
import { queryClient } from '../api/queries.ts';

/** Estimates take a while to work out, so they are kept while one looks at other screens and comes back. */
const key = (trait: string): readonly string[] => ['estimates', trait];

export const keptReport = (trait: string): EstimatesReport | null =>
  queryClient.getQueryData<EstimatesReport>(key(trait)) ?? null;

export const keepReport = (trait: string, report: EstimatesReport): void => {
  queryClient.setQueryData(key(trait), report);
};

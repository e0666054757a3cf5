import type { Units } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { programmeQuery } from '../api/queries.ts';

export { type Measure, measureOf, type Units } from '@keelrow/breeding/facts';

/** What the programme speaks. */
export function useUnits(): Units {
  return useQuery(programmeQuery).data?.settings.units ?? 'metric';
}

import type { AnyRow } from '@keelrow/breeding/facts';
import { type UseQueryResult, useQuery } from '@tanstack/react-query';
import { recordsQuery } from '../api/queries.ts';
import { inOrder, type Limit, limitOf } from './limits.ts';

const many = 1000;
export type BriefRow = AnyRow & { readonly id: string };

export const useBriefs = () => useQuery(recordsQuery('briefs', '', 0, many));

/** Limits of one brief, or of all where none is named. */
export function useLimits(brief = ''): UseQueryResult<Limit[]> {
  return useQuery({
    ...recordsQuery('brief-limits', brief, 0, many),
    // The search looks into all texts; what belongs to a brief is told by its code alone.
    select: ({ rows }) => inOrder(rows.map(limitOf).filter((limit) => brief === '' || limit.brief === brief)),
  });
}

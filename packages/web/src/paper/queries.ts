import type { RoundSheet, RoundToTypeIn } from '@keelrow/server/contract';
import { queryOptions } from '@tanstack/react-query';
import { get, part } from '../api/talk.ts';

export const roundSheetsQuery = queryOptions({
  queryKey: ['round-sheets'],
  queryFn: ({ signal }) => get<readonly RoundSheet[]>('round-sheets', {}, signal),
});

export const roundSheetQuery = (code: string, year: number) =>
  queryOptions({
    queryKey: ['round-sheet', code, year],
    queryFn: ({ signal }) => get<RoundToTypeIn>(`round-sheets/${part(code)}`, { year }, signal),
    // What is typed lies over what was fetched; fetching anew in the midst of it would only disturb.
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 0,
  });

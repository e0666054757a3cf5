import type { Unsettled } from '@keelrow/server/contract';
import { queryOptions } from '@tanstack/react-query';
import { get } from '../api/talk.ts';

export const unsettledQuery = queryOptions({
  queryKey: ['unsettled'],
  queryFn: ({ signal }) => get<Unsettled>('unsettled', {}, signal),
  staleTime: 0,
});

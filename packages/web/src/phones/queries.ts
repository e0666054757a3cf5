import type { Phones } from '@keelrow/server/contract';
import { queryOptions } from '@tanstack/react-query';
import { get } from '../api/talk.ts';

export const phonesQuery = queryOptions({
  queryKey: ['phones'],
  queryFn: ({ signal }) => get<Phones>('phones', {}, signal),
  staleTime: 0,
});

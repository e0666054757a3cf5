import type { Pictures } from '@keelrow/server/contract';
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { get } from '../api/talk.ts';

export interface PicturesSought {
  readonly genet?: string | undefined;
  readonly search?: string | undefined;
  readonly trait?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
}

export const picturesQuery = (sought: PicturesSought, page: number, limit: number) =>
  queryOptions({
    queryKey: ['pictures', sought, page, limit],
    queryFn: ({ signal }) => get<Pictures>('pictures', { ...sought, offset: page * limit, limit }, signal),
    placeholderData: keepPreviousData,
  });

import type {
  BedPlan,
  BedPlants,
  GenetPage,
  HistoryEntry,
  NoteGrid,
  PlantList,
  PlantSort,
  ProfileShown,
  ProgrammeState,
  RecordList,
  TraitShown,
} from '@keelrow/server/contract';
import { keepPreviousData, QueryCache, QueryClient, queryOptions } from '@tanstack/react-query';
import { ApiError } from './api-error.ts';
import { keepProgramme, keptProgramme } from './kept-programme.ts';
import { get, part } from './talk.ts';

/** An answer that refuses will refuse again; only silence is worth another try. */
const retry = (count: number, error: Error): boolean =>
  error instanceof ApiError && error.status === 0 && count < 2;

/** A key that ran out is found out by any request; the shell then shows the way in. */
const whenShutOut = (error: Error): void => {
  if (error instanceof ApiError && error.status === 401)
    void queryClient.resetQueries({ queryKey: ['programme'] });
};

export const queryClient: QueryClient = new QueryClient({
  queryCache: new QueryCache({
    onError: (error, { queryKey }) => {
      if (queryKey[0] !== 'programme') whenShutOut(error);
    },
  }),
  defaultOptions: {
    queries: { retry, staleTime: 15_000, networkMode: 'always' },
    mutations: { networkMode: 'always' },
  },
});

export const programmeQuery = queryOptions({
  queryKey: ['programme'],
  queryFn: async ({ signal }) => {
    const state = await get<ProgrammeState | { person: null }>('programme', {}, signal);
    if (!('settings' in state)) throw new ApiError(401, { problem: 'Nobody is signed in.' });
    keepProgramme(state);
    return state;
  },
  // Out of reach of the server the app opens with what it said last; it is asked anew at once.
  initialData: keptProgramme,
  initialDataUpdatedAt: 0,
  staleTime: 60_000,
});

export interface PlantsWanted {
  readonly search?: string | undefined;
  readonly origin?: string | undefined;
  readonly place?: string | undefined;
  readonly decision?: string | undefined;
  readonly alive?: 'yes' | 'no' | undefined;
  readonly sort?: PlantSort | undefined;
  readonly descending?: boolean | undefined;
}
export const plantsPageSize = 200;

export const plantsQuery = (wanted: PlantsWanted, page: number) =>
  queryOptions({
    queryKey: ['plants', wanted, page],
    queryFn: ({ signal }) =>
      get<PlantList>('plants', { ...wanted, offset: page * plantsPageSize, limit: plantsPageSize }, signal),
    ...(page === 0 ? { placeholderData: keepPreviousData } : {}),
  });

export const genetQuery = (code: string) =>
  queryOptions({
    queryKey: ['genet', code],
    queryFn: ({ signal }) => get<GenetPage>(`genets/${part(code)}`, {}, signal),
  });

export const historyQuery = (kind: string, id: string) =>
  queryOptions({
    queryKey: ['history', kind, id],
    queryFn: ({ signal }) => get<readonly HistoryEntry[]>(`history/${kind}/${part(id)}`, {}, signal),
  });

export const traitsQuery = queryOptions({
  queryKey: ['traits'],
  queryFn: ({ signal }) => get<readonly TraitShown[]>('traits', {}, signal),
});

export const bedsQuery = queryOptions({
  queryKey: ['beds'],
  queryFn: ({ signal }) => get<BedPlan>('beds', {}, signal),
});

export const bedQuery = (code: string, trait: string | undefined, year: number | undefined) =>
  queryOptions({
    queryKey: ['bed', code, trait ?? null, year ?? null],
    queryFn: ({ signal }) => get<BedPlants>(`beds/${part(code)}`, { trait, year }, signal),
    placeholderData: keepPreviousData,
  });

export const noteGridQuery = (place: string, traits: readonly string[], year: number) =>
  queryOptions({
    queryKey: ['note-grid', place, traits, year],
    queryFn: ({ signal }) => get<NoteGrid>('note-grid', { place, traits: traits.join(','), year }, signal),
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 0,
  });

export const recordsQuery = (kind: string, search: string, offset: number, limit: number) =>
  queryOptions({
    queryKey: ['records', kind, search, offset, limit],
    queryFn: ({ signal }) => get<RecordList>(`records/${kind}`, { search, offset, limit }, signal),
    placeholderData: keepPreviousData,
  });

export const profilesQuery = queryOptions({
  queryKey: ['profiles'],
  queryFn: ({ signal }) => get<readonly ProfileShown[]>('profiles', {}, signal),
});

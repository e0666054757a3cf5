import type { QueryState } from '@tanstack/react-query';
import { useCallback, useEffect, useMemo, useSyncExternalStore } from 'react';
import { useWork, type Work } from './jobs.ts';
import { queryClient } from './queries.ts';

/** What takes the server a while is kept while one looks at other screens and comes back. */
const prefix = 'worked-out';
queryClient.setQueryDefaults([prefix], { gcTime: 3_600_000 });

export interface WorkedOut<Result> {
  /** The last result, which may be of the records as they were before; null until there is one. */
  readonly result: Result | null;
  readonly work: Work<Result>;
  again(): void;
}

/**
 * The result of long work on the server: the kept one where nothing was changed since, else begun at once.
 * `what` names it among all that is kept. Work that nobody waits for any more is stopped, as the next would wait for it.
 * With `wanted` false nothing is begun, and what is kept is shown.
 */
export function useWorkedOut<Result>(
  what: readonly string[],
  path: string,
  body: unknown,
  wanted = true,
): WorkedOut<Result> {
  const name = JSON.stringify([prefix, ...what]);
  const asked = JSON.stringify(body);
  const key = useCallback((): readonly string[] => JSON.parse(name), [name]);
  const kept = useSyncExternalStore(
    (changed) => queryClient.getQueryCache().subscribe(changed),
    () => queryClient.getQueryState<Result>(key()),
  );
  const work = useWork<Result>((result) => queryClient.setQueryData(key(), result));
  const { begin, stop, forget } = work;
  const missing = kept?.data === undefined || kept.isInvalidated;
  const again = useCallback(() => begin(path, JSON.parse(asked)), [begin, path, asked]);

  useEffect(() => {
    if (!wanted || !missing) return;
    again();
  }, [wanted, missing, again]);
  // Another question, or leaving the screen, ends what is still being worked out.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the name is what this waits for
  useEffect(
    () => () => {
      stop();
      forget();
    },
    [name, stop, forget],
  );
  return { result: kept?.data ?? null, work, again };
}

/**
 * What is kept of several things, none of it begun: a result, and whether anything was changed since. The order is that
 * of the names.
 */
export function useKept<Result>(
  names: readonly (readonly string[])[],
): readonly { readonly result: Result | null; readonly current: boolean }[] {
  const states = (): readonly (QueryState<Result> | undefined)[] =>
    names.map((name) => queryClient.getQueryState<Result>([prefix, ...name]));
  const stamp = useSyncExternalStore(
    (changed) => queryClient.getQueryCache().subscribe(changed),
    () => states().map(stampOf).join(),
  );
  const list = JSON.stringify(names);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the stamp stands for the states, the list for the names
  return useMemo(
    () =>
      states().map((state) => ({
        result: state?.data ?? null,
        current: state?.data !== undefined && !state.isInvalidated,
      })),
    [stamp, list],
  );
}

const stampOf = (state: QueryState<unknown> | undefined): string =>
  `${state?.dataUpdatedAt ?? 0}${state?.isInvalidated ? ' old' : ''}`;

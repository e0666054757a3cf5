import type { QueryState } from '@tanstack/react-query';
import { useCallback, useEffect, useSyncExternalStore } from 'react';
import { useWork, type Work } from './jobs.ts';
import { queryClient } from './queries.ts';

/** What takes the server a while is kept while one looks at other screens and comes back. */
const prefix = 'worked-out';
queryClient.setQueryDefaults([prefix], { gcTime: 3_600_000 });

const keyOf = (what: readonly string[]): readonly string[] => [prefix, ...what];
const stateOf = <Result>(what: readonly string[]): QueryState<Result> | undefined =>
  queryClient.getQueryState<Result>(keyOf(what));
const isCurrent = (state: QueryState<unknown> | undefined): boolean =>
  state?.data !== undefined && !state.isInvalidated;
const whenKeptChanges = (changed: () => void): (() => void) => queryClient.getQueryCache().subscribe(changed);

export interface WorkedOut<Result> {
  /** The last result, which may be of the records as they were before; null until there is one. */
  readonly result: Result | null;
  readonly work: Work<Result>;
  again(): void;
}

interface Question {
  readonly what: readonly string[];
  readonly path: string;
  readonly body: unknown;
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
  const question = JSON.stringify({ what, path, body } satisfies Question);
  const kept = useSyncExternalStore(whenKeptChanges, () => stateOf<Result>(what));
  const work = useWork<Result>((result) => queryClient.setQueryData(keyOf(what), result));
  const { begin, stop, forget } = work;
  const current = isCurrent(kept);
  const again = useCallback(() => {
    const asked = JSON.parse(question) as Question;
    begin(asked.path, asked.body);
  }, [begin, question]);
  // Another question, or leaving the screen, ends what is still being worked out.
  const leave = useCallback(() => {
    if (!isCurrent(stateOf((JSON.parse(question) as Question).what))) stop();
    forget();
  }, [stop, forget, question]);

  useEffect(() => {
    if (wanted && !current) again();
  }, [wanted, current, again]);
  useEffect(() => {
    // A page that is closed or loaded anew runs no clean-up of its own.
    addEventListener('pagehide', leave);
    return () => {
      removeEventListener('pagehide', leave);
      leave();
    };
  }, [leave]);
  return { result: kept?.data ?? null, work, again };
}

/** What is kept of several things, none of it begun, in the order of their names: a result, and whether it still holds. */
export function useKept<Result>(
  names: readonly (readonly string[])[],
): readonly { readonly result: Result | null; readonly current: boolean }[] {
  useSyncExternalStore(whenKeptChanges, () =>
    names.map((name) => `${stateOf(name)?.dataUpdatedAt} ${isCurrent(stateOf(name))}`).join(),
  );
  return names.map((name) => {
    const state = stateOf<Result>(name);
    return { result: state?.data ?? null, current: isCurrent(state) };
  });
}

import { useCallback, useEffect, useSyncExternalStore } from 'react';
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

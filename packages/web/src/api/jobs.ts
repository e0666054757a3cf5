import type { JobStarted, JobState } from '@keelrow/server/contract';
import { useCallback, useEffect, useRef, useState } from 'react';
import { ApiError } from './api-error.ts';
import { get, part, send } from './talk.ts';

const wait = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

export interface Work<Result> {
  /** Null before it was first begun. */
  readonly state: JobState<Result> | null;
  readonly error: unknown;
  readonly busy: boolean;
  begin(path: string, body?: unknown): void;
  stop(): void;
  forget(): void;
}

/**
 * Long work on the server: begins it, asks how far it is, hands over its result, stops it.
 * Beginning anew or leaving the screen stops asking after the former one; it does not stop the work itself.
 */
export function useWork<Result>(whenDone?: (result: Result) => void): Work<Result> {
  const [state, setState] = useState<JobState<Result> | null>(null);
  const [error, setError] = useState<unknown>(null);
  const [busy, setBusy] = useState(false);
  const turn = useRef(0);
  const done = useRef(whenDone);
  done.current = whenDone;

  useEffect(() => () => void turn.current++, []);

  const begin = useCallback((path: string, body?: unknown) => {
    const mine = ++turn.current;
    const stillMine = (): boolean => mine === turn.current;
    setState(null);
    setError(null);
    setBusy(true);
    const follow = async (): Promise<void> => {
      const { job } = await send<JobStarted>('POST', path, body ?? {});
      for (let pause = 60; stillMine(); pause = Math.min(pause * 1.5, 700)) {
        const now = await get<JobState<Result>>(`jobs/${part(job)}`);
        if (!stillMine()) return;
        setState(now);
        if (now.state === 'failed')
          throw new ApiError(422, now.error ?? { problem: `${now.about} could not be done.` });
        if (now.state === 'done') done.current?.(now.result as Result);
        if (now.state === 'done' || now.state === 'stopped') return;
        await wait(pause);
      }
    };
    follow()
      .catch((problem: unknown) => stillMine() && setError(problem))
      .finally(() => stillMine() && setBusy(false));
  }, []);

  const id = state?.id;
  const stop = useCallback(() => {
    if (id) void send('DELETE', `jobs/${part(id)}`).catch(setError);
  }, [id]);

  const forget = useCallback(() => {
    turn.current++;
    setState(null);
    setError(null);
    setBusy(false);
  }, []);

  return { state, error, busy, begin, stop, forget };
}

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
  const job = useRef<string | null>(null);
  const done = useRef(whenDone);
  done.current = whenDone;

  useEffect(() => () => void turn.current++, []);

  const begin = useCallback((path: string, body?: unknown) => {
    const mine = ++turn.current;
    const stillMine = (): boolean => mine === turn.current;
    job.current = null;
    setState(null);
    setError(null);
    setBusy(true);
    const follow = async (): Promise<void> => {
      const { job: id } = await send<JobStarted>('POST', path, body ?? {});
      if (stillMine()) job.current = id;
      for (let pause = 60; stillMine(); pause = Math.min(pause * 1.5, 700)) {
        const now = await get<JobState<Result>>(`jobs/${part(id)}`);
        if (!stillMine()) return;
        setState(now);
        if (now.state === 'waiting' || now.state === 'running') {
          await wait(pause);
          continue;
        }
        job.current = null;
        if (now.state === 'failed')
          throw new ApiError(422, now.error ?? { problem: `${now.about} could not be done.` });
        if (now.state === 'done') done.current?.(now.result as Result);
        return;
      }
    };
    follow()
      .catch((problem: unknown) => stillMine() && setError(problem))
      .finally(() => stillMine() && setBusy(false));
  }, []);

  const stop = useCallback(() => {
    if (job.current) void send('DELETE', `jobs/${part(job.current)}`).catch(setError);
  }, []);

  const forget = useCallback(() => {
    turn.current++;
    setState(null);
    setError(null);
    setBusy(false);
  }, []);

  return { state, error, busy, begin, stop, forget };
}

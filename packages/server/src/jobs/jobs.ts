import { Worker } from 'node:worker_threads';
import { v7 as newId } from 'uuid';
import type { JobState } from '../contract/programme.ts';
import { RefusedError } from '../refusals.ts';
import type { Task, TaskMessage, WorkerMessage } from './tasks.ts';

interface Job {
  state: JobState;
  readonly stop: Int32Array;
  readonly settle: (job: Job, status: number) => void;
}

/** Finished jobs that are remembered for those who ask late. */
const remembered = 50;

/**
 * Long work in two worker threads, one for sums and one for files, so that a long import delays no ranking and the
 * API stays quick meanwhile. A worker that dies fails its jobs with a word and is started anew for the next.
 */
export class Jobs {
  readonly #where: string;
  readonly #workers = new Map<'sums' | 'files', Worker>();
  readonly #jobs = new Map<string, Job>();

  constructor(where: string) {
    this.#where = where;
  }

  /** Starts work and returns the job's id at once. */
  start(task: Task, about: string): string {
    return this.#begin(task, about, () => undefined);
  }

  /** Does work and waits for its result. */
  run<Result>(task: Task, about: string): Promise<Result> {
    return new Promise((resolve, reject) => {
      this.#begin(task, about, ({ state }, status) => {
        if (state.state === 'done') resolve(state.result as Result);
        else reject(new RefusedError(status, state.error ?? { problem: 'stopped; nothing was stored' }));
      });
    });
  }

  state(id: string): JobState {
    const job = this.#jobs.get(id);
    if (!job)
      throw new RefusedError(404, {
        problem: 'there is no such job',
        remedy: 'the server may have been started anew; start the work again',
      });
    return job.state;
  }

  /** Asks the work to stop at its next step; nothing of it is stored. */
  stop(id: string): void {
    this.state(id);
    Atomics.store(this.#jobs.get(id)!.stop, 0, 1);
  }

  async close(): Promise<void> {
    for (const { stop } of this.#jobs.values()) Atomics.store(stop, 0, 1);
    await Promise.all([...this.#workers.values()].map((worker) => worker.terminate()));
  }

  #begin(task: Task, about: string, settle: Job['settle']): string {
    const id = newId();
    const stop = new SharedArrayBuffer(4);
    this.#jobs.set(id, {
      state: { id, state: 'waiting', about, progress: null, step: '' },
      stop: new Int32Array(stop),
      settle,
    });
    for (const old of this.#jobs.keys()) {
      if (this.#jobs.size <= remembered) break;
      if (!['waiting', 'running'].includes(this.#jobs.get(old)!.state.state)) this.#jobs.delete(old);
    }
    this.#worker(task.name === 'import' || task.name === 'demo' ? 'files' : 'sums').postMessage({
      id,
      task,
      stop,
    } satisfies TaskMessage);
    return id;
  }

  #worker(kind: 'sums' | 'files'): Worker {
    const running = this.#workers.get(kind);
    if (running) return running;
    const worker = new Worker(new URL('./worker.js', import.meta.url), {
      workerData: { where: this.#where },
    });
    worker.on('message', (message: WorkerMessage) => this.#hear(message));
    worker.on('error', () => this.#lost(kind));
    worker.on('exit', () => this.#lost(kind));
    this.#workers.set(kind, worker);
    return worker;
  }

  #hear(message: WorkerMessage): void {
    const job = this.#jobs.get(message.id);
    if (!job) return;
    const { id, about } = job.state;
    if (message.kind === 'progress') {
      job.state = { id, about, state: 'running', progress: message.progress, step: message.step };
      return;
    }
    const wasStopped = Atomics.load(job.stop, 0) === 1;
    if (message.kind === 'done')
      job.state = { id, about, state: 'done', progress: 1, step: '', result: message.result };
    else
      job.state = {
        id,
        about,
        state: wasStopped ? 'stopped' : 'failed',
        progress: null,
        step: '',
        error: message.refusal,
      };
    job.settle(job, message.kind === 'done' ? 200 : message.status);
  }

  #lost(kind: 'sums' | 'files'): void {
    if (!this.#workers.delete(kind)) return;
    for (const job of this.#jobs.values()) {
      if (job.state.state !== 'waiting' && job.state.state !== 'running') continue;
      job.state = {
        ...job.state,
        state: 'failed',
        error: {
          problem: 'the work ended before it was done; nothing of it was stored',
          remedy:
            'start it again; if it fails again, the file or model may be too large for this computer’s memory',
        },
      };
      job.settle(job, 503);
    }
  }
}

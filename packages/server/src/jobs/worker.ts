import { parentPort, workerData } from 'node:worker_threads';
import { fillWithDemo, openProgramme } from '@keelrow/records';
import { asRefusal } from '../refusals.ts';
import { Matching } from './match-records.ts';
import { Reckoning } from './reckoning.ts';
import { takeFileIn } from './take-file-in.ts';
import type { Control, Task, TaskMessage, WorkerMessage } from './tasks.ts';

/** Does long work beside the server, one task after another, on a handle of its own. */
const port = parentPort!;
const programme = await openProgramme((workerData as { where: string }).where);
const reckoning = new Reckoning(programme);
const matching = new Matching(programme);
let last: Promise<void> = Promise.resolve();

port.on('message', (message: TaskMessage) => {
  last = last.then(() => doTask(message));
});

async function doTask({ id, task, stop }: TaskMessage): Promise<void> {
  const say = (message: WorkerMessage) => port.postMessage(message);
  const flag = new Int32Array(stop);
  const control = {
    isStopped: () => Atomics.load(flag, 0) === 1,
    onProgress: (progress: number | null, step: string) => say({ id, kind: 'progress', progress, step }),
  };
  try {
    say({ id, kind: 'done', result: await resultOf(task, control) });
  } catch (error) {
    const { status, refusal } = asRefusal(error);
    if (status >= 500) console.error(error);
    say({ id, kind: 'failed', status, refusal });
  }
}

function resultOf(task: Task, control: Control): Promise<unknown> {
  switch (task.name) {
    case 'estimates':
      return reckoning.estimates(task.trait, control);
    case 'compare':
      return reckoning.compare(task.trait, task.a, task.b, control);
    case 'information':
      return reckoning.information(task.trait, task.genet, control);
    case 'best':
      return reckoning.best(task.trait, task.k, control);
    case 'model':
      return reckoning.model(task.trait, control);
    case 'winters':
      return reckoning.winters(control);
    case 'match':
      return matching.match(task.brief, control);
    case 'import':
      return takeFileIn(programme, task, control);
    case 'demo':
      return fillWithDemo(programme, task.by, control);
  }
}

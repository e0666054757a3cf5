import type { ActBy, ImportPlan } from '@keelrow/records';

/** Work that is done in a worker thread, by name, with what it needs and what it gives. */
export type Task =
  | { readonly name: 'estimates'; readonly trait: string }
  | { readonly name: 'compare'; readonly trait: string; readonly a: string; readonly b: string }
  | { readonly name: 'information'; readonly trait: string; readonly genet: string }
  | { readonly name: 'best'; readonly trait: string; readonly k: number }
  | { readonly name: 'model'; readonly trait: string }
  | { readonly name: 'winters' }
  | { readonly name: 'match'; readonly brief: string }
  | {
      readonly name: 'import';
      readonly path: string;
      readonly fileName: string;
      readonly plan: ImportPlan;
      readonly store: boolean;
      readonly by: ActBy;
    }
  | { readonly name: 'demo'; readonly by: ActBy };

/** To the worker. stop: one number in shared memory, set to 1 when the work shall end. */
export interface TaskMessage {
  readonly id: string;
  readonly task: Task;
  readonly stop: SharedArrayBuffer;
}

/** From the worker. */
export type WorkerMessage =
  | {
      readonly id: string;
      readonly kind: 'progress';
      readonly progress: number | null;
      readonly step: string;
    }
  | { readonly id: string; readonly kind: 'done'; readonly result: unknown }
  | {
      readonly id: string;
      readonly kind: 'failed';
      readonly status: number;
      readonly refusal: { problem: string; remedy?: string };
    };

/** How work tells of its progress and hears that it shall stop. */
export interface Control {
  readonly isStopped: () => boolean;
  readonly onProgress: (progress: number | null, step: string) => void;
}

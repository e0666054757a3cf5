import { type ImportOutcome, openImport, type Programme, takeIn } from '@keelrow/records';
import type { Control, Task } from './tasks.ts';

/** Takes an uploaded file in, or says what taking it in would do. */
export async function takeFileIn(
  programme: Programme,
  { path, fileName, plan, store, by }: Extract<Task, { name: 'import' }>,
  control: Control,
): Promise<ImportOutcome & { seconds: number }> {
  const began = performance.now();
  const part = await openImport(programme, path, plan, fileName);
  const outcome = await takeIn(programme, [part], { by, store, ...control });
  return { ...outcome, seconds: (performance.now() - began) / 1000 };
}

import { type BriefMatch, matchFromNotes } from '@keelrow/breeding/brief';
import { type Programme, readBriefData } from '@keelrow/records';
import type { Control } from './tasks.ts';

/** Holds every living genet of the programme against a brief. */
export async function matchRecords(
  programme: Programme,
  brief: string,
  control: Control,
): Promise<BriefMatch> {
  control.onProgress(null, 'reading notes');
  const data = await readBriefData(programme.read, brief);
  return matchFromNotes(data, { isCancelled: control.isStopped, onProgress: control.onProgress });
}

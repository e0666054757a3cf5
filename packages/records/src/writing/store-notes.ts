import { type AnyRow, rowProblems } from '@keelrow/breeding/facts';
import type { Programme } from '../database/programme.ts';
import { RecordsError } from '../errors.ts';
import { type ActBy, act } from './act.ts';
import { add } from './add.ts';
import { replace } from './change.ts';

/** A note made elsewhere, with its own id, and the note that it corrects, if any. */
export type NoteToStore = AnyRow & { readonly id: string; readonly replaces?: string };

/**
 * Stores notes one by one: each is stored, or comes back with the reason. A note that was stored before is taken as
 * stored, so that a sender may send again what it is not sure of.
 */
export async function storeNotes(
  programme: Programme,
  by: ActBy,
  notes: readonly NoteToStore[],
): Promise<{ id: string; problem: string | null }[]> {
  const results: { id: string; problem: string | null }[] = [];
  for (const { replaces, ...note } of notes) {
    try {
      await act(programme, by, async (doing) => {
        const there = await doing.tx
          .selectFrom('notes')
          .select('id')
          .where('id', '=', note.id)
          .executeTakeFirst();
        if (there) return;
        const problem = rowProblems('notes', note, doing.today)[0];
        if (problem)
          throw new RecordsError('input', problem.problem, problem.remedy, { field: problem.field });
        const own = { ...note, by: note.by ?? by.person };
        if (replaces) await replace(doing, 'notes', replaces, own);
        else await add(doing, 'notes', [own]);
      });
      results.push({ id: note.id, problem: null });
    } catch (error) {
      if (!(error instanceof RecordsError) || error.because === 'store') throw error;
      results.push({
        id: note.id,
        problem: error.remedy ? `${error.message}; ${error.remedy}` : error.message,
      });
    }
  }
  return results;
}

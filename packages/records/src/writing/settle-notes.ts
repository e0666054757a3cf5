import type { Programme } from '../database/programme.ts';
import { RecordsError } from '../errors.ts';
import { type ActBy, act } from './act.ts';
import { withdraw } from './change.ts';

/**
 * Settles notes that say different things: those kept stand side by side from now on, those struck out are withdrawn
 * with the reason and stay in the history. Throws RecordsError: no reason, nothing named, a note that no longer stands.
 */
export async function settleNotes(
  programme: Programme,
  by: ActBy,
  { keep, strike, reason }: { keep: readonly string[]; strike: readonly string[]; reason: string },
): Promise<void> {
  if (reason.trim() === '') {
    throw new RecordsError('input', 'settling says why', 'give the reason in a few words', {
      field: 'reason',
    });
  }
  if (keep.length + strike.length < 2 || keep.some((id) => strike.includes(id))) {
    throw new RecordsError(
      'input',
      'it is not said which note is kept and which is struck out',
      'choose again',
    );
  }
  await act(programme, { ...by, reason }, async (doing) => {
    for (const id of strike) await withdraw(doing, 'notes', id, reason);
    const standing = await doing.tx
      .selectFrom('notes')
      .select('id')
      .where('id', 'in', [...keep, ''])
      .where('ended_act', 'is', null)
      .execute();
    if (standing.length < new Set(keep).size) {
      throw new RecordsError(
        'conflict',
        'one of these notes was corrected or struck out meanwhile',
        'look at the case again as it stands now',
      );
    }
    if (keep.length < 2) return;
    const rows = [...new Set(keep)].map((note) => ({ act: doing.seq, note }));
    await doing.tx.insertInto('settlements').values(rows).execute();
  });
}

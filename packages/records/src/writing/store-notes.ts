import type { AnyRow } from '@keelrow/breeding/facts';
import type { Programme } from '../database/programme.ts';
import type { Sender, Taken } from './fact-to-take.ts';
import { takeFacts } from './take-facts.ts';

/** A note made elsewhere, with its own id, and the note that it corrects, if any. */
export type NoteToStore = AnyRow & { readonly id: string; readonly replaces?: string };

/**
 * Stores notes together: each is stored, or comes back with the reason. A note that was stored before is taken as
 * stored, so that a sender may send again what it is not sure of. A correction of another person's note stands beside
 * it unless the sender may correct others.
 */
export const storeNotes = (
  programme: Programme,
  by: Sender,
  notes: readonly NoteToStore[],
): Promise<Taken[]> =>
  takeFacts(
    programme,
    by,
    notes.map(({ id, replaces, ...row }) => ({
      kind: 'notes',
      id,
      row,
      ...(replaces ? { replaces } : {}),
    })),
  );

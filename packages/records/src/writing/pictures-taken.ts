import type { AnyRow } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { readMany } from '../reading/records.ts';
import type { Act } from './act.ts';
import { allProblems, type Checking, insertReady, type Ready } from './add.ts';
import { change } from './change.ts';
import { encode, prepareReferences } from './encode.ts';
import type { RowToTake } from './fact-to-take.ts';

const hashShape = /^[0-9a-f]{64}$/;

/**
 * Makes the records of pictures that notes name before their own records have come, so that a picture never keeps a
 * note waiting: its plant, trait, day and person are those of the note.
 */
export async function rememberPictures(
  act: Act,
  checking: Checking,
  notes: readonly AnyRow[],
): Promise<void> {
  const rows: AnyRow[] = [];
  const ready: Ready[] = [];
  const named = notes
    .map(({ photo }) => photo)
    .filter((hash) => typeof hash === 'string' && hashShape.test(hash));
  // One that was withdrawn stays so: its note comes back with that reason.
  const stored = await readMany(act.tx, 'photos', { codes: named as string[], ids: [] });
  const taken = new Set(stored.map(({ hash }) => hash));
  for (const note of notes) {
    const hash = note.photo;
    if (typeof hash !== 'string' || !hashShape.test(hash)) continue;
    if (taken.has(hash) || checking.references.idOf('photos', hash) !== null) continue;
    // One on a plant that is not known is refused and leaves no picture behind it.
    if (encode('notes', { ...note, photo: null }, checking.references).problems.length > 0) continue;
    const id = newId();
    rows.push({
      id,
      hash,
      plant: note.plant,
      genet: note.genet,
      place: note.place,
      trait: note.trait,
      taken_on: note.on,
      by: note.by,
    });
    checking.references.learn('photos', hash, id);
  }
  if (rows.length === 0) return;
  await prepareReferences(checking.references, 'photos', rows);
  for (const row of rows) {
    const { encoded } = allProblems('photos', row, checking);
    ready.push({ id: row.id as string, encoded });
  }
  await insertReady(act, 'photos', ready);
}

/**
 * Passes over pictures whose hash is stored already, filling in what was not known of them, and those that come twice
 * in one batch. Returns the others.
 */
export async function takeKnownPictures(act: Act, facts: readonly RowToTake[]): Promise<RowToTake[]> {
  const hashes = facts.map(({ row }) => row.hash as string);
  const stored = await readMany(act.tx, 'photos', { codes: hashes, ids: [] });
  const known = new Map(stored.map((row) => [row.hash as string, row]));
  const fresh = new Map<string, RowToTake>();
  for (const fact of facts) {
    const hash = fact.row.hash as string;
    const there = known.get(hash);
    if (!there) {
      if (!fresh.has(hash)) fresh.set(hash, fact);
      continue;
    }
    const missing = Object.entries(fact.row).filter(([name, value]) => value != null && there[name] == null);
    if (missing.length > 0) await change(act, 'photos', there.id, Object.fromEntries(missing));
  }
  return [...fresh.values()];
}

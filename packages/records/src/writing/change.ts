import { type AnyRow, fieldAsText, type KindName, kindOf, rowProblems } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { fieldError, RecordsError } from '../errors.ts';
import { readRecord } from '../reading/records.ts';
import { anyTable } from '../schema/any-table.ts';
import { hasParents, parentsTableOf, tableOf } from '../schema/columns.ts';
import type { Act } from './act.ts';
import { add } from './add.ts';
import { encode, prepareReferences } from './encode.ts';
import { refuseLoops } from './loops.ts';
import { References } from './references.ts';
import { refuseReferredTo } from './referred-to.ts';
import { storableProblems } from './storable.ts';

/**
 * Changes fields of a record; what was there before goes into its history. Fields not named stay; null empties one.
 * Facts are not changed but replaced. Throws RecordsError: no such record, a fact, or something wrong with a field.
 * Returns the names of the fields that truly changed.
 */
export async function change(act: Act, kind: KindName, id: string, fields: AnyRow): Promise<string[]> {
  const declared = kindOf(kind);
  if (declared.nature === 'fact') {
    throw new RecordsError(
      'input',
      `a ${declared.one} is never overwritten`,
      'replace it by a new one, or withdraw it with a reason',
    );
  }
  const before = await standing(act, kind, id);
  const after: AnyRow = { ...before, ...fields, id };
  const problems = [...rowProblems(kind, after, act.today), ...storableProblems(kind, after)];
  if (problems.length > 0) throw fieldError(declared.one, problems);
  const changed = Object.keys(fields).filter((name) => {
    const field = declared.fields[name];
    return field && fieldAsText(field, before[name]) !== fieldAsText(field, fields[name]);
  });
  if (changed.length === 0) return [];
  const references = new References(act.tx);
  await prepareReferences(references, kind, [after]);
  const encoded = encode(kind, after, references, changed);
  if (encoded.problems.length > 0) throw fieldError(declared.one, encoded.problems);
  const db = anyTable(act.tx);
  if (declared.key && changed.includes(declared.key)) {
    const taken = await db
      .selectFrom(tableOf(kind))
      .select('id')
      .where(declared.key, '=', after[declared.key])
      .executeTakeFirst();
    if (taken)
      throw new RecordsError('conflict', `“${String(after[declared.key])}” is taken`, 'use another', {
        field: declared.key,
      });
  }
  if (Object.keys(encoded.columns).length > 0) {
    await db.updateTable(tableOf(kind)).set(encoded.columns).where('id', '=', id).execute();
  }
  if (hasParents(kind)) await changeParents(act, kind, id, changed, encoded.parents);
  if (changed.some((name) => tellsParents.has(name))) await refuseLoops(act);
  await act.tx
    .insertInto('changes')
    .values(
      changed.map((name) => ({
        id: newId(),
        act: act.seq,
        kind,
        record: id,
        field: name,
        before: fieldAsText(declared.fields[name]!, before[name]) || null,
        after: fieldAsText(declared.fields[name]!, fields[name]) || null,
      })),
    )
    .execute();
  return changed;
}

/** Fields from which parents follow: of genets and crosses, and of the lots and sowings that genets came from. */
const tellsParents = new Set(['seed_parent', 'pollen_parent', 'clone_of', 'cross', 'seed_lot', 'sowing']);

async function changeParents(
  act: Act,
  kind: KindName,
  id: string,
  changed: readonly string[],
  parents: ReturnType<typeof encode>['parents'],
): Promise<void> {
  const fields = kindOf(kind).fields;
  const sides = changed.flatMap((name) => (fields[name]?.type === 'parents' ? [fields[name].side] : []));
  const db = anyTable(act.tx);
  if (sides.length > 0) {
    await db.deleteFrom(parentsTableOf(kind)).where('owner', '=', id).where('side', 'in', sides).execute();
    if (parents.length > 0) {
      await db
        .insertInto(parentsTableOf(kind))
        .values(parents.map((parent) => ({ owner: id, ...parent })))
        .execute();
    }
  }
}

/**
 * Replaces a fact by a corrected one, which is a fact of its own; the former stays in the history.
 * Returns the id of the new fact.
 */
export async function replace(
  act: Act,
  kind: KindName,
  id: string,
  row: AnyRow,
  reason?: string,
): Promise<string> {
  if (kindOf(kind).nature !== 'fact') {
    throw new RecordsError('input', `a ${kindOf(kind).one} is changed, not replaced`, 'change its fields');
  }
  await standing(act, kind, id);
  const made = typeof row.id === 'string' ? row.id : newId();
  // The former ends first: of some facts only one may stand a day.
  await end(act, kind, id, 'replaced', made, reason);
  await add(act, kind, [{ ...row, id: made }], id);
  return made;
}

/**
 * Withdraws a record or fact with a reason; it stays in the history, and its code is never used again. Refuses where
 * standing records refer to it.
 */
export async function withdraw(act: Act, kind: KindName, id: string, reason: string): Promise<void> {
  if (reason.trim() === '') {
    throw new RecordsError('input', 'a withdrawal says why', 'give the reason in a few words', {
      field: 'reason',
    });
  }
  await standing(act, kind, id);
  await refuseReferredTo(act, kind, id);
  await end(act, kind, id, 'withdrawn', null, reason);
}

async function standing(act: Act, kind: KindName, id: string): Promise<AnyRow> {
  const row = await readRecord(act.tx, kind, id);
  if (!row) throw new RecordsError('absent', `there is no ${kindOf(kind).one} with this id`);
  const db = anyTable(act.tx);
  const { ended_act } = await db
    .selectFrom(tableOf(kind))
    .select('ended_act')
    .where('id', '=', id)
    .executeTakeFirstOrThrow();
  if (ended_act !== null) {
    throw new RecordsError(
      'conflict',
      `this ${kindOf(kind).one} was replaced or withdrawn before`,
      'look at its history and take the one that stands',
    );
  }
  return row;
}

async function end(
  act: Act,
  kind: KindName,
  id: string,
  what: 'replaced' | 'withdrawn',
  by: string | null,
  reason: string | undefined,
): Promise<void> {
  await anyTable(act.tx)
    .updateTable(tableOf(kind))
    .set({ ended_act: act.seq })
    .where('id', '=', id)
    .execute();
  await act.tx
    .insertInto('endings')
    .values({ id: newId(), act: act.seq, kind, record: id, what, by_record: by, reason: reason ?? null })
    .execute();
}

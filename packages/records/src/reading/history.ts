import { type KindName, kindOf } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import { anyTable } from '../schema/any-table.ts';
import { type Tables, tableOf } from '../schema/columns.ts';

export interface HistoryEntry {
  /** Server's clock, UTC, ISO 8601. */
  readonly at: string;
  readonly what: 'made' | 'changed' | 'replaced' | 'withdrawn';
  readonly by: string | null;
  readonly device: string | null;
  readonly via: string;
  readonly reason: string | null;
  readonly fields: { field: string; before: string | null; after: string | null }[];
}

/**
 * All that befell a record, newest first: made, changed field by field, replaced, withdrawn. The history of a fact
 * that corrects another begins with that other's.
 */
export async function historyOf(db: Kysely<Tables>, kind: KindName, id: string): Promise<HistoryEntry[]> {
  const there = await anyTable(db)
    .selectFrom(tableOf(kind))
    .select('id')
    .where('id', '=', id)
    .executeTakeFirst();
  if (!there) throw new RecordsError('absent', `there is no ${kindOf(kind).one} with this id`);
  const chain = await correctionChain(db, kind, id);
  const entries: (HistoryEntry & { seq: number })[] = [];
  const acts = db
    .selectFrom('acts')
    .leftJoin('people', 'people.id', 'acts.person')
    .leftJoin('devices', 'devices.id', 'acts.device')
    .select([
      'acts.seq',
      'acts.at',
      'acts.via',
      'acts.reason',
      'people.code as by',
      'devices.code as device',
    ]);
  for (const record of chain) {
    const { made_act } = await anyTable(db)
      .selectFrom(tableOf(kind))
      .select('made_act')
      .where('id', '=', record)
      .executeTakeFirstOrThrow();
    const made = await acts.where('acts.seq', '=', made_act as number).executeTakeFirstOrThrow();
    entries.push({ ...made, what: 'made', fields: [] });
    const changes = await acts
      .innerJoin('changes', 'changes.act', 'acts.seq')
      .select(['changes.field', 'changes.before', 'changes.after'])
      .where('changes.record', '=', record)
      .where('changes.kind', '=', kind)
      .orderBy('acts.seq')
      .execute();
    for (const { field, before, after, ...act } of changes) {
      const last = entries.at(-1);
      if (last?.what === 'changed' && last.seq === act.seq) last.fields.push({ field, before, after });
      else entries.push({ ...act, what: 'changed', fields: [{ field, before, after }] });
    }
    const endings = await acts
      .innerJoin('endings', 'endings.act', 'acts.seq')
      .select(['endings.what', 'endings.reason as why'])
      .where('endings.record', '=', record)
      .where('endings.kind', '=', kind)
      .execute();
    for (const { what, why, ...act } of endings) {
      entries.push({ ...act, what: what as 'replaced' | 'withdrawn', reason: why ?? act.reason, fields: [] });
    }
  }
  return entries.sort((a, b) => b.seq - a.seq).map(({ seq: _, ...entry }) => entry);
}

/** The fact and those that it corrects, newest first; of a record, itself alone. */
async function correctionChain(db: Kysely<Tables>, kind: KindName, id: string): Promise<string[]> {
  const chain = [id];
  const table = anyTable(db).selectFrom(tableOf(kind));
  const columns = (await table.selectAll().where('id', '=', id).executeTakeFirst()) ?? {};
  let earlier = columns.replaces as string | null | undefined;
  while (earlier && !chain.includes(earlier)) {
    chain.push(earlier);
    const row = await table.select('replaces').where('id', '=', earlier).executeTakeFirst();
    earlier = row?.replaces as string | null | undefined;
  }
  return chain;
}

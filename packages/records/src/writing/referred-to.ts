import { fieldsOf, type KindName, kindNames, kindOf } from '@keelrow/breeding/facts';
import { RecordsError } from '../errors.ts';
import { anyTable } from '../schema/any-table.ts';
import { hasParents, parentsTableOf, tableOf } from '../schema/columns.ts';
import type { Act } from './act.ts';

/** Refuses the withdrawal of a record that standing records refer to: they would refer to nothing, in files too. */
export async function refuseReferredTo(act: Act, kind: KindName, id: string): Promise<void> {
  const referring: string[] = [];
  for (const from of kindNames) {
    const count = (await viaFields(act, from, kind, id)) + (await viaParents(act, from, kind, id));
    if (count > 0) referring.push(`${count} ${count === 1 ? kindOf(from).one : kindOf(from).many}`);
  }
  if (referring.length === 0) return;
  throw new RecordsError(
    'conflict',
    `this ${kindOf(kind).one} cannot be withdrawn while others refer to it: ${referring.join(', ')}`,
    'withdraw or correct those first',
  );
}

async function viaFields(act: Act, from: KindName, kind: KindName, id: string): Promise<number> {
  const names = fieldsOf(from).flatMap(([name, field]) =>
    field.type === 'reference' && field.to === kind ? [name] : [],
  );
  if (names.length === 0) return 0;
  const { count } = await anyTable(act.tx)
    .selectFrom(tableOf(from))
    .select(({ fn }) => fn.countAll<number>().as('count'))
    .where('ended_act', 'is', null)
    .where((where) => where.or(names.map((name) => where(name, '=', id))))
    .executeTakeFirstOrThrow();
  return Number(count);
}

async function viaParents(act: Act, from: KindName, kind: KindName, id: string): Promise<number> {
  if (kind !== 'genets' || !hasParents(from)) return 0;
  const { count } = await anyTable(act.tx)
    .selectFrom(parentsTableOf(from))
    .innerJoin(tableOf(from), `${tableOf(from)}.id`, `${parentsTableOf(from)}.owner`)
    .select(({ fn }) => fn.count<number>('owner').distinct().as('count'))
    .where('parent', '=', id)
    .where('ended_act', 'is', null)
    .executeTakeFirstOrThrow();
  return Number(count);
}

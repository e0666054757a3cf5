import { type AnyRow, type FieldProblem, fieldsOf, type KindName, kindOf } from '@keelrow/breeding/facts';
import { anyTable } from '../schema/any-table.ts';
import { tableOf } from '../schema/columns.ts';
import type { Act } from './act.ts';
import { isId } from './references.ts';

/**
 * A problem in words that a person in the beds can do something with: phones name what they refer to by ids, and one
 * that is no longer taken was withdrawn since the phone last asked.
 */
export async function whatBecameOf(
  act: Act,
  kind: KindName,
  row: AnyRow,
  problem: FieldProblem,
): Promise<FieldProblem> {
  const field = fieldsOf(kind).find(([name]) => name === problem.field)?.[1];
  const named = row[problem.field];
  if (field?.type !== 'reference' || typeof named !== 'string') return problem;
  const to = field.to as KindName;
  const { one, key } = kindOf(to);
  if (!key) return problem;
  const found = await anyTable(act.tx)
    .selectFrom(tableOf(to))
    .select([key, 'ended_act'])
    .where(isId(named) ? 'id' : key, '=', named)
    .executeTakeFirst();
  if (!found || found.ended_act === null) return problem;
  return {
    field: problem.field,
    problem: `the ${one} “${String(found[key])}” was withdrawn in the office`,
    remedy: 'ask there what it should be on, or throw this away',
  };
}

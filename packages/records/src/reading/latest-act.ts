import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';

/** Number of the latest act: what was read before it may be out of date. 0 in a new programme. */
export async function latestAct(db: Kysely<Tables>): Promise<number> {
  const { seq } = await db
    .selectFrom('acts')
    .select(({ fn }) => fn.max('seq').as('seq'))
    .executeTakeFirstOrThrow();
  return Number(seq ?? 0);
}

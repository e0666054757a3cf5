import { writeParents } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';

type Side = 'seed' | 'pollen';

interface Listed {
  readonly parent: string | null;
  readonly code: string | null;
  readonly chance: number;
}

/** Parents of genets by side: their own, else those of the cross that they were raised from. */
export interface Parents {
  of(genet: string, side: Side): readonly Listed[];
}

export const readParentage = (db: Kysely<Tables>): Promise<Parents> =>
  untilNextAct(db, 'parentage', parentageNow);

async function parentageNow(db: Kysely<Tables>): Promise<Parents> {
  const read = async (table: 'genets_parents' | 'crosses_parents'): Promise<Map<string, Listed[]>> => {
    const rows = await db
      .selectFrom(table)
      .leftJoin('genets', 'genets.id', `${table}.parent`)
      .select([`${table}.owner`, `${table}.side`, `${table}.parent`, 'genets.code', `${table}.chance`])
      .orderBy('listed')
      .execute();
    const byOwner = new Map<string, Listed[]>();
    for (const { owner, side, ...listed } of rows) {
      const list = byOwner.get(owner + side);
      if (list) list.push(listed);
      else byOwner.set(owner + side, [listed]);
    }
    return byOwner;
  };
  const own = await read('genets_parents');
  const ofCross = await read('crosses_parents');
  const crosses = await db
    .selectFrom('genets')
    .select(['id', 'cross'])
    .where('cross', 'is not', null)
    .execute();
  const crossOf = new Map(crosses.map(({ id, cross }) => [id, cross!]));
  return {
    of(genet, side) {
      if (own.has(`${genet}seed`) || own.has(`${genet}pollen`)) return own.get(genet + side) ?? [];
      const cross = crossOf.get(genet);
      return cross ? (ofCross.get(cross + side) ?? []) : [];
    },
  };
}

/** Parents of a genet on one side as files write them. */
export async function parentsAsText(db: Kysely<Tables>): Promise<(genet: string, side: Side) => string> {
  const parentage = await readParentage(db);
  return (genet, side) =>
    writeParents(parentage.of(genet, side).map(({ code, chance }) => ({ genet: code ?? 'self', chance })));
}

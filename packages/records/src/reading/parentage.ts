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

/**
 * Parents of genets by side: their own; else those of the cross that they were raised from; else what is known of the
 * seed lot that they came from, the parents of its cross or its seed parent with the pollen unknown.
 */
export interface Parents {
  of(genet: string, side: Side): readonly Listed[];
}

export const readParentage = (db: Kysely<Tables>): Promise<Parents> =>
  untilNextAct(db, 'parentage', parentageNow);

async function parentageNow(db: Kysely<Tables>): Promise<Parents> {
  const own = await listedParents(db, 'genets_parents');
  const ofCross = await listedParents(db, 'crosses_parents');
  const raised = await raisedFrom(db);
  return {
    of(genet, side) {
      if (own.has(`${genet}seed`) || own.has(`${genet}pollen`)) return own.get(genet + side) ?? [];
      const from = raised.get(genet);
      if (!from) return [];
      if (from.cross !== null) return ofCross.get(from.cross + side) ?? [];
      return side === 'seed' && from.seedParent ? [from.seedParent] : [];
    },
  };
}

async function listedParents(
  db: Kysely<Tables>,
  table: 'genets_parents' | 'crosses_parents',
): Promise<Map<string, Listed[]>> {
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
}

interface RaisedFrom {
  readonly cross: string | null;
  readonly seedParent: Listed | null;
}

/** Of each genet the cross that it or its seed lot came of, else the seed parent of the lot. */
async function raisedFrom(db: Kysely<Tables>): Promise<Map<string, RaisedFrom>> {
  const rows = await db
    .selectFrom('genets')
    .leftJoin('sowings', 'sowings.id', 'genets.sowing')
    .leftJoin('seed_lots as own_lot', 'own_lot.id', 'genets.seed_lot')
    .leftJoin('seed_lots as sown_lot', 'sown_lot.id', 'sowings.seed_lot')
    .select([
      'genets.id',
      'genets.cross',
      'own_lot.cross as cross_of_lot',
      'own_lot.seed_parent as mother_of_lot',
      'sown_lot.cross as cross_of_sown',
      'sown_lot.seed_parent as mother_of_sown',
    ])
    .where((where) =>
      where.or([
        where('genets.cross', 'is not', null),
        where('genets.seed_lot', 'is not', null),
        where('genets.sowing', 'is not', null),
      ]),
    )
    .execute();
  const codes = new Map(
    (await db.selectFrom('genets').select(['id', 'code']).execute()).map(({ id, code }) => [id, code]),
  );
  return new Map(
    rows.map((row) => {
      const cross = row.cross ?? row.cross_of_lot ?? row.cross_of_sown;
      const mother = row.mother_of_lot ?? row.mother_of_sown;
      const seedParent = mother ? { parent: mother, code: codes.get(mother) ?? null, chance: 1 } : null;
      return [row.id, { cross, seedParent }];
    }),
  );
}

/** Parents of a genet on one side as files write them. */
export async function parentsAsText(db: Kysely<Tables>): Promise<(genet: string, side: Side) => string> {
  const parentage = await readParentage(db);
  return (genet, side) =>
    writeParents(parentage.of(genet, side).map(({ code, chance }) => ({ genet: code ?? 'self', chance })));
}

/** Parents of a cross on one side as files write them. */
export async function crossParentsAsText(db: Kysely<Tables>): Promise<(cross: string, side: Side) => string> {
  const listed = await listedParents(db, 'crosses_parents');
  return (cross, side) =>
    writeParents(
      (listed.get(cross + side) ?? []).map(({ code, chance }) => ({ genet: code ?? 'self', chance })),
    );
}

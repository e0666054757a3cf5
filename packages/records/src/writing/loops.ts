import { findLoop } from '@keelrow/breeding/pedigree';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import type { Act } from './act.ts';

/**
 * Parents of every genet, on either side, possible ones and the sources of sports included. A genet without parents
 * of its own has those of its cross.
 */
export async function parentEdges(db: Kysely<Tables>): Promise<Map<string, string[]>> {
  const edges = new Map<string, string[]>();
  const learn = (child: string, parent: string | null) => {
    if (parent === null) return;
    const parents = edges.get(child);
    if (parents) parents.push(parent);
    else edges.set(child, [parent]);
  };
  const own = await db.selectFrom('genets_parents').select(['owner', 'parent']).execute();
  for (const { owner, parent } of own) learn(owner, parent);
  const withOwn = new Set(own.map(({ owner }) => owner));
  const viaCross = await db
    .selectFrom('genets')
    .innerJoin('crosses_parents', 'crosses_parents.owner', 'genets.cross')
    .select(['genets.id', 'crosses_parents.parent'])
    .execute();
  for (const { id, parent } of viaCross) if (!withOwn.has(id)) learn(id, parent);
  const sports = await db
    .selectFrom('genets')
    .select(['id', 'clone_of'])
    .where('clone_of', 'is not', null)
    .execute();
  for (const { id, clone_of } of sports) learn(id, clone_of);
  return edges;
}

/** A genet would be its own ancestor; codes: those of the loop. */
export class LoopError extends RecordsError {
  readonly codes: readonly string[];
  constructor(codes: readonly string[]) {
    const isOwnParent = codes[0] === codes[1];
    super(
      'conflict',
      isOwnParent
        ? `${codes[0]} would be its own parent`
        : `a genet would be its own ancestor: ${codes.join(' ← ')}`,
      isOwnParent ? 'for a self write “self” under the pollen parent' : 'mend the parents of one of them',
      { field: 'seed_parent' },
    );
    this.codes = codes;
  }
}

/** Refuses the act if a genet has become its own ancestor, naming the loop by codes. */
export async function refuseLoops(act: Act): Promise<void> {
  const loop = findLoop(await parentEdges(act.tx));
  if (!loop) return;
  const rows = await act.tx.selectFrom('genets').select(['id', 'code']).where('id', 'in', loop).execute();
  const codes = new Map(rows.map(({ id, code }) => [id, code]));
  throw new LoopError(loop.map((id) => codes.get(id) ?? id));
}

import { findLoop } from '@keelrow/breeding/pedigree';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import { readParentage } from '../reading/parentage.ts';
import type { Tables } from '../schema/columns.ts';
import type { Act } from './act.ts';

/** Parents of every genet, on either side, possible ones and the sources of sports included. */
export async function parentEdges(db: Kysely<Tables>): Promise<Map<string, string[]>> {
  const parentage = await readParentage(db);
  const genets = await db.selectFrom('genets').select(['id', 'clone_of']).execute();
  const edges = new Map<string, string[]>();
  for (const { id, clone_of } of genets) {
    const parents = [...parentage.of(id, 'seed'), ...parentage.of(id, 'pollen')].flatMap(
      ({ parent }) => parent ?? [],
    );
    if (clone_of !== null) parents.push(clone_of);
    if (parents.length > 0) edges.set(id, parents);
  }
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

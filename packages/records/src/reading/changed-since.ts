import type { Kysely } from 'kysely';
import { chunksOf } from '../schema/any-table.ts';
import type { Tables } from '../schema/columns.ts';

/** What of a phone's holdings changed since an act. */
interface Changed {
  /** Ids of plants that were made, changed, moved, re-identified, or whose genet was changed. */
  readonly plants: ReadonlySet<string>;
  /** Ids of plants and notes that no longer stand. */
  readonly gone: readonly string[];
}

/** Kinds whose changed fields may tell on any plant: parents of many, and where beds lie. */
const tellOnMany: Readonly<Record<string, readonly string[] | undefined>> = {
  genets: ['code'],
  places: ['within', 'sort'],
  crosses: ['seed_parent', 'pollen_parent', 'code'],
  'seed-lots': ['cross', 'seed_parent'],
  sowings: ['seed_lot'],
};

/** More plants than these are quicker read with all the others. */
const fewer = 20_000;

/** What changed after an act; null where all is to be read anew. */
export async function changedSince(db: Kysely<Tables>, since: number): Promise<Changed | null> {
  const changes = await db
    .selectFrom('changes')
    .select(['kind', 'record', 'field'])
    .where('act', '>', since)
    .where('kind', 'in', ['plants', ...Object.keys(tellOnMany)])
    .execute();
  if (changes.some(({ kind, field }) => tellOnMany[kind]?.includes(field))) return null;
  const plants = new Set(changes.filter(({ kind }) => kind === 'plants').map(({ record }) => record));
  const genets = [...new Set(changes.filter(({ kind }) => kind === 'genets').map(({ record }) => record))];
  for (const id of await plantsOfGenets(db, genets)) plants.add(id);
  const made = await db.selectFrom('plants').select('id').where('made_act', '>', since).execute();
  for (const { id } of made) plants.add(id);
  for (const table of ['moves', 'identities'] as const) {
    for (const column of ['made_act', 'ended_act'] as const) {
      const rows = await db.selectFrom(table).select('plant').where(column, '>', since).execute();
      for (const { plant } of rows) plants.add(plant);
    }
  }
  if (plants.size > fewer) return null;
  const gone: string[] = [];
  for (const table of ['plants', 'notes'] as const) {
    const rows = await db.selectFrom(table).select('id').where('ended_act', '>', since).execute();
    gone.push(...rows.map(({ id }) => id));
  }
  return { plants, gone };
}

/** Plants labelled as one of these genets, or found to be one. */
async function plantsOfGenets(db: Kysely<Tables>, genets: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  for (const ids of chunksOf(genets, 5000)) {
    const labelled = await db.selectFrom('plants').select('id').where('genet', 'in', ids).execute();
    const mended = await db.selectFrom('identities').select('plant').where('genet', 'in', ids).execute();
    found.push(...labelled.map(({ id }) => id), ...mended.map(({ plant }) => plant));
  }
  return found;
}

import type { Lab } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { chunksOf } from '../schema/any-table.ts';
import type { Tables } from '../schema/columns.ts';
import { changedSince } from './changed-since.ts';
import { readIdentities } from './identity.ts';
import { latestAct } from './latest-act.ts';
import { crossParentsAsText, parentsAsText } from './parentage.ts';
import { heldValue, valueColumns } from './shown-value.ts';
import { readTraits, type TraitShown } from './traits.ts';
import { readPlaces } from './where-plants-stand.ts';

/** What a phone holds for its walks: all of it, or what changed since an act. */
export interface RecordsHeld {
  /** Number of the latest act; the next question's `since`. */
  readonly upTo: number;
  /** Replaces all that the phone holds; else only plants and notes that changed are in it. */
  readonly whole: boolean;
  /** Small lists come whole each time. */
  readonly places: readonly HeldPlace[];
  readonly traits: readonly TraitShown[];
  readonly briefs: readonly { readonly id: string; readonly code: string; readonly name: string | null }[];
  /** Crosses of which nothing was harvested yet; parents as files write them. */
  readonly crosses: readonly HeldCross[];
  readonly plants: readonly HeldPlant[];
  /** Standing notes on plants of this and the last three years. */
  readonly notes: readonly HeldNote[];
  /** Ids of plants and notes that the phone should forget. */
  readonly gone: readonly string[];
}

export interface HeldPlace {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly sort: string;
  /** Id of the place that it lies in. */
  readonly within: string | null;
  readonly walk: number | null;
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  /** Angle counter-clockwise from east. */
  readonly turned: number;
}

export interface HeldCross {
  readonly id: string;
  readonly code: string;
  readonly seedParent: string | null;
  readonly pollenParent: string | null;
}

export interface HeldPlant {
  readonly id: string;
  readonly code: string;
  /** Id of the genet that the plant is held to be now. */
  readonly genet: string;
  readonly genetCode: string;
  readonly genetName: string | null;
  /** `A × B`; empty where unknown. */
  readonly parents: string;
  /** Id of its bed, or of the place that it stands in where that lies in no bed. */
  readonly bed: string | null;
  readonly walk: number | null;
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly plantedOn: string | null;
  readonly goneOn: string | null;
}

export interface HeldNote {
  readonly id: string;
  /** Ids of the plant and the trait. */
  readonly plant: string;
  readonly trait: string;
  readonly on: string;
  readonly state: string;
  readonly value: number | string | Lab | null;
  /** Code of the person. */
  readonly by: string | null;
  readonly remark: string | null;
  /** Hash of its picture. */
  readonly photo: string | null;
}

/** Years before this one whose notes a phone holds, and for which it still knows plants that are gone. */
const yearsBefore = 3;

/** Ids in one question: each takes a place among the values of a statement. */
const atOnce = 5000;

/**
 * What a phone needs for its walks. since: number of the latest act that it knows; null, or one that this programme
 * has not come to, gives all. today: in the garden's time zone. Read at any time: what is stored meanwhile comes with
 * the next question.
 */
export async function readHoldings(
  db: Kysely<Tables>,
  { since, today }: { readonly since: number | null; readonly today: string },
): Promise<RecordsHeld> {
  const upTo = await latestAct(db);
  const changed = since === null || since > upTo ? null : await changedSince(db, since);
  const from = `${Number(today.slice(0, 4)) - yearsBefore}-01-01`;
  const plants = await plantsHeld(db, changed?.plants ?? null);
  const isPast = ({ goneOn }: HeldPlant) => goneOn !== null && goneOn < from;
  return {
    upTo,
    whole: changed === null,
    places: await placesHeld(db),
    traits: await readTraits(db),
    briefs: await db
      .selectFrom('briefs')
      .select(['id', 'code', 'name'])
      .where('ended_act', 'is', null)
      .where('closed_on', 'is', null)
      .orderBy('code')
      .execute(),
    crosses: await crossesUnderWay(db),
    plants: plants.filter((plant) => !isPast(plant)),
    notes: await notesHeld(db, from, since !== null && changed ? since : null),
    gone: changed ? [...changed.gone, ...plants.filter(isPast).map(({ id }) => id)] : [],
  };
}

async function placesHeld(db: Kysely<Tables>): Promise<HeldPlace[]> {
  const rows = await db
    .selectFrom('places')
    .selectAll()
    .where('ended_act', 'is', null)
    .orderBy('walk')
    .orderBy('code')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    code: row.code,
    name: row.name,
    sort: row.sort,
    within: row.within,
    walk: row.walk,
    eastM: row.east_m,
    northM: row.north_m,
    lengthM: row.length_m,
    widthM: row.width_m,
    turned: row.turned ?? 0,
  }));
}

/** Crosses of which nothing was harvested yet, nor a seed lot made. */
async function crossesUnderWay(db: Kysely<Tables>): Promise<HeldCross[]> {
  const rows = await db
    .selectFrom('crosses')
    .select(['id', 'code'])
    .where('ended_act', 'is', null)
    .where('sort', 'is distinct from', 'observed')
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('harvests')
            .select('harvests.id')
            .whereRef('harvests.cross', '=', 'crosses.id')
            .where('harvests.ended_act', 'is', null),
        ),
      ),
    )
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('seed_lots')
            .select('seed_lots.id')
            .whereRef('seed_lots.cross', '=', 'crosses.id')
            .where('seed_lots.ended_act', 'is', null),
        ),
      ),
    )
    .where(({ not, exists, selectFrom }) =>
      not(exists(selectFrom('genets').select('genets.id').whereRef('genets.cross', '=', 'crosses.id'))),
    )
    .orderBy('code')
    .execute();
  if (rows.length === 0) return [];
  const parents = await crossParentsAsText(db);
  return rows.map(({ id, code }) => ({
    id,
    code,
    seedParent: parents(id, 'seed') || null,
    pollenParent: parents(id, 'pollen') || null,
  }));
}

async function notesHeld(db: Kysely<Tables>, from: string, since: number | null): Promise<HeldNote[]> {
  let query = db
    .selectFrom('notes')
    .leftJoin('people', 'people.id', 'notes.by')
    .leftJoin('photos', 'photos.id', 'notes.photo')
    .select([
      'notes.id',
      'notes.plant',
      'notes.trait',
      'notes.on',
      'notes.state',
      'notes.remark',
      'people.code as by',
      'photos.hash as photo',
      ...valueColumns,
    ])
    .where('notes.plant', 'is not', null)
    .where('notes.ended_act', 'is', null)
    .where('notes.on', '>=', from);
  if (since !== null) query = query.where('notes.made_act', '>', since);
  return (await query.execute()).map((row) => ({
    id: row.id,
    plant: row.plant!,
    trait: row.trait,
    on: row.on,
    state: row.state ?? 'seen',
    value: heldValue(row),
    by: row.by,
    remark: row.remark,
    photo: row.photo,
  }));
}

/** Standing plants; only: their ids, null for all. */
async function plantsHeld(db: Kysely<Tables>, only: ReadonlySet<string> | null): Promise<HeldPlant[]> {
  if (only?.size === 0) return [];
  const standing = db
    .selectFrom('plants')
    .select(['id', 'code', 'genet', 'planted_on', 'gone_on'])
    .where('ended_act', 'is', null);
  const rows = only
    ? (
        await Promise.all(
          [...chunksOf([...only], atOnce)].map((ids) => standing.where('id', 'in', ids).execute()),
        )
      ).flat()
    : await standing.execute();
  const places = await readPlaces(db);
  const identities = await readIdentities(db);
  const parents = await parentsAsText(db);
  const genets = new Map(
    (await db.selectFrom('genets').select(['id', 'code', 'name']).execute()).map((genet) => [
      genet.id,
      genet,
    ]),
  );
  return rows.map((row) => {
    const genet = identities.now(row.id, row.genet);
    const stand = places.now(row.id);
    const [seed, pollen] = [parents(genet, 'seed'), parents(genet, 'pollen')];
    return {
      id: row.id,
      code: row.code,
      genet,
      genetCode: genets.get(genet)?.code ?? '',
      genetName: genets.get(genet)?.name ?? null,
      parents: seed === '' && pollen === '' ? '' : `${seed || '?'} × ${pollen || '?'}`,
      bed: places.bedOf(stand.place) ?? stand.place,
      walk: stand.walk,
      eastM: stand.eastM,
      northM: stand.northM,
      plantedOn: row.planted_on,
      goneOn: row.gone_on,
    };
  });
}

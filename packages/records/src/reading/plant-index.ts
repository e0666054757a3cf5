import type { Kysely } from 'kysely';
import { chunksOf } from '../schema/any-table.ts';
import type { Tables } from '../schema/columns.ts';
import { type Identities, readIdentities } from './identity.ts';
import { parentsAsText } from './parentage.ts';
import { readPlaces } from './where-plants-stand.ts';

/** One genet and what stands of it. */
export interface PlantListRow {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly taxon: string | null;
  readonly origin: string | null;
  readonly seedParent: string;
  readonly pollenParent: string;
  readonly raisedIn: number | null;
  readonly standard: boolean;
  readonly alive: number;
  readonly plants: number;
  readonly places: readonly string[];
  readonly notes: number;
  readonly lastNotedOn: string | null;
  readonly decision: string | null;
}

/** Reads all standing genets with what stands of them: a few questions over whole tables, however many there are. */
export async function readPlantIndex(db: Kysely<Tables>): Promise<PlantListRow[]> {
  const genets = await db
    .selectFrom('genets')
    .leftJoin('taxa', 'taxa.id', 'genets.taxon')
    .select([
      'genets.id',
      'genets.code',
      'genets.name',
      'taxa.name as taxon',
      'genets.origin',
      'genets.raised_in',
      'genets.standard',
    ])
    .where('genets.ended_act', 'is', null)
    .execute();
  const identities = await readIdentities(db);
  const places = await readPlaces(db);
  const plants = await db
    .selectFrom('plants')
    .select(['id', 'genet', 'gone_on'])
    .where('ended_act', 'is', null)
    .execute();
  const genetOf = new Map<string, string>();
  const standing = new Map<string, { alive: number; plants: number; places: Set<string> }>();
  for (const { id, genet: labelled, gone_on } of plants) {
    const genet = identities.now(id, labelled);
    genetOf.set(id, genet);
    const of = standing.get(genet) ?? { alive: 0, plants: 0, places: new Set<string>() };
    of.plants += 1;
    if (gone_on === null) {
      of.alive += 1;
      const { place } = places.now(id);
      const bed = places.bedOf(place) ?? place;
      if (bed) of.places.add(places.code.get(bed) ?? bed);
    }
    standing.set(genet, of);
  }
  const noted = await notesByGenet(
    db,
    genetOf,
    identities,
    new Map(plants.map(({ id, genet }) => [id, genet])),
  );
  const decided = await latestDecisions(db, genetOf);
  const parents = await parentsAsText(db);
  return genets.map(({ id, code, name, taxon, origin, raised_in, standard }) => ({
    id,
    code,
    name,
    taxon,
    origin,
    seedParent: parents(id, 'seed'),
    pollenParent: parents(id, 'pollen'),
    raisedIn: raised_in,
    standard: standard === 1,
    alive: standing.get(id)?.alive ?? 0,
    plants: standing.get(id)?.plants ?? 0,
    places: [...(standing.get(id)?.places ?? [])],
    notes: noted.get(id)?.notes ?? 0,
    lastNotedOn: noted.get(id)?.last ?? null,
    decision: decided.get(id)?.decision ?? null,
  }));
}

/** Numbers of notes by genet. labelled: the genet on each plant's label. */
async function notesByGenet(
  db: Kysely<Tables>,
  genetOf: ReadonlyMap<string, string>,
  identities: Identities,
  labelled: ReadonlyMap<string, string>,
): Promise<Map<string, { notes: number; last: string }>> {
  const noted = new Map<string, { notes: number; last: string }>();
  const count = (owner: string | null | undefined, notes: number, last: string) => {
    if (!owner) return;
    const before = noted.get(owner);
    noted.set(owner, {
      notes: (before?.notes ?? 0) + notes,
      last: before && before.last > last ? before.last : last,
    });
  };
  const standing = db.selectFrom('notes').where('ended_act', 'is', null);
  const rows = await standing
    .select(({ fn }) => ['plant', 'genet', fn.countAll<number>().as('notes'), fn.max('on').as('last')])
    .where((where) => where.or([where('plant', 'is not', null), where('genet', 'is not', null)]))
    .groupBy(['plant', 'genet'])
    .execute();
  for (const { plant, genet, notes, last } of rows) {
    if (!plant || !identities.mended.has(plant))
      count(plant ? genetOf.get(plant) : genet, Number(notes), last);
  }
  // Notes of a plant found to be another genet belong to the one or the other by their day.
  for (const mended of chunksOf([...identities.mended], 5000)) {
    const days = await standing.select(['plant', 'on']).where('plant', 'in', mended).execute();
    for (const { plant, on } of days) {
      const label = labelled.get(plant!);
      if (label) count(identities.on(plant!, label, on), 1, on);
    }
  }
  return noted;
}

async function latestDecisions(
  db: Kysely<Tables>,
  genetOf: ReadonlyMap<string, string>,
): Promise<Map<string, { on: string; decision: string }>> {
  const rows = await db
    .selectFrom('decisions')
    .select(['plant', 'genet', 'on', 'decision'])
    .where('ended_act', 'is', null)
    .orderBy('on')
    .orderBy('id')
    .execute();
  const latest = new Map<string, { on: string; decision: string }>();
  for (const { plant, genet, on, decision } of rows) {
    const owner = plant ? genetOf.get(plant) : genet;
    if (owner) latest.set(owner, { on, decision });
  }
  return latest;
}

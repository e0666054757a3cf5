import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import { readIdentities } from './identity.ts';
import { heldValue, shownValue, valueColumns } from './shown-value.ts';
import { readTraits, type TraitShown } from './traits.ts';
import { readPlaces } from './where-plants-stand.ts';

export interface BedShown {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly site: string | null;
  /** Corner within the site, size, and angle counter-clockwise from east; null where never measured. */
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  readonly turned: number;
  readonly light: string | null;
  readonly moisture: string | null;
  readonly soil: string | null;
  readonly plants: number;
}

export interface BedPlan {
  readonly sites: readonly { readonly code: string; readonly name: string | null }[];
  readonly beds: readonly BedShown[];
}

export interface PlantInBed {
  readonly id: string;
  readonly code: string;
  readonly genet: string;
  readonly genetCode: string;
  readonly genetName: string | null;
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly walk: number | null;
  readonly alive: boolean;
  readonly plantedOn: string | null;
  readonly value: number | string | null;
  readonly shown: string | null;
}

export interface BedPlants {
  readonly bed: BedShown;
  readonly trait: TraitShown | null;
  readonly plants: readonly PlantInBed[];
}

/** Sites and beds with their sizes, latest conditions and numbers of living plants. */
export async function readBedPlan(db: Kysely<Tables>): Promise<BedPlan> {
  const rows = await db
    .selectFrom('places')
    .selectAll()
    .where('ended_act', 'is', null)
    .orderBy('walk')
    .orderBy('code')
    .execute();
  const places = await readPlaces(db);
  const conditions = await db
    .selectFrom('place_conditions')
    .select(['place', 'light', 'moisture', 'soil'])
    .where('ended_act', 'is', null)
    .orderBy('on')
    .execute();
  const latest = new Map(conditions.map((condition) => [condition.place, condition]));
  const living = await db
    .selectFrom('plants')
    .select('id')
    .where('gone_on', 'is', null)
    .where('ended_act', 'is', null)
    .execute();
  const counts = new Map<string, number>();
  for (const { id } of living) {
    const { place } = places.now(id);
    const bed = places.bedOf(place) ?? place;
    if (bed) counts.set(bed, (counts.get(bed) ?? 0) + 1);
  }
  const beds = rows
    .filter(({ id, sort }) => sort === 'bed' || sort === 'house' || (sort === 'site' && counts.has(id)))
    .map((row) => ({
      id: row.id,
      code: row.code,
      name: row.name,
      site: places.code.get(places.siteOf(row.id) ?? '') ?? null,
      eastM: row.east_m,
      northM: row.north_m,
      lengthM: row.length_m,
      widthM: row.width_m,
      turned: row.turned ?? 0,
      light: latest.get(row.id)?.light ?? null,
      moisture: latest.get(row.id)?.moisture ?? null,
      soil: latest.get(row.id)?.soil ?? null,
      plants: counts.get(row.id) ?? 0,
    }));
  return {
    sites: rows.filter(({ sort }) => sort === 'site').map(({ code, name }) => ({ code, name })),
    beds,
  };
}

/** The plants of one bed, gone ones included, with the latest value of a trait to colour them by (of a year, if given). */
export async function readBedPlants(
  db: Kysely<Tables>,
  code: string,
  traitCode?: string,
  year?: number,
): Promise<BedPlants> {
  const plan = await readBedPlan(db);
  const bed = plan.beds.find((candidate) => candidate.code === code);
  if (!bed) throw new RecordsError('absent', `there is no bed “${code}”`);
  const trait = traitCode
    ? ((await readTraits(db)).find((candidate) => candidate.code === traitCode) ?? null)
    : null;
  const values = trait
    ? await latestValues(db, trait, year)
    : new Map<string, { value: number | string | null; shown: string }>();
  const places = await readPlaces(db);
  const identities = await readIdentities(db);
  const genets = new Map(
    (await db.selectFrom('genets').select(['id', 'code', 'name']).execute()).map((genet) => [
      genet.id,
      genet,
    ]),
  );
  const rows = await db
    .selectFrom('plants')
    .select(['id', 'code', 'genet', 'gone_on', 'planted_on'])
    .where('ended_act', 'is', null)
    .execute();
  const plants = rows.flatMap(({ id, code: plantCode, genet: labelled, gone_on, planted_on }) => {
    const standing = places.now(id);
    if ((places.bedOf(standing.place) ?? standing.place) !== bed.id) return [];
    const genet = genets.get(identities.now(id, labelled));
    return [
      {
        id,
        code: plantCode,
        genet: genet?.id ?? labelled,
        genetCode: genet?.code ?? '',
        genetName: genet?.name ?? null,
        eastM: standing.eastM,
        northM: standing.northM,
        walk: standing.walk,
        alive: gone_on === null,
        plantedOn: planted_on,
        value: values.get(id)?.value ?? null,
        shown: values.get(id)?.shown ?? null,
      },
    ];
  });
  return {
    bed,
    trait,
    plants: plants.sort((a, b) => (a.walk ?? Infinity) - (b.walk ?? Infinity) || (a.code < b.code ? -1 : 1)),
  };
}

async function latestValues(
  db: Kysely<Tables>,
  trait: TraitShown,
  year?: number,
): Promise<Map<string, { value: number | string | null; shown: string }>> {
  let query = db
    .selectFrom('notes')
    .select(['notes.plant', ...valueColumns])
    .where('notes.trait', '=', trait.id)
    .where('notes.plant', 'is not', null)
    .where('notes.ended_act', 'is', null);
  if (year) query = query.where('notes.on', '>=', `${year}-01-01`).where('notes.on', '<=', `${year}-12-31`);
  const notes = await query.orderBy('notes.on').orderBy('notes.id').execute();
  const latest = new Map<string, { value: number | string | null; shown: string }>();
  for (const note of notes) {
    const value = heldValue(note);
    if (value === null) continue;
    latest.set(note.plant!, {
      value: typeof value === 'object' ? null : value,
      shown: shownValue(value, trait.unit),
    });
  }
  return latest;
}

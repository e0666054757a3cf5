import { type AnyRow, dayOfYear, type TraitSort } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import { type Family, readFamily } from './family.ts';
import { readIdentities } from './identity.ts';
import { type PlantListRow, readPlantIndex } from './plant-index.ts';
import { readRecord } from './records.ts';
import { heldValue, shownValue, valueColumns } from './shown-value.ts';
import { bindingTerms } from './terms.ts';
import { readPlaces } from './where-plants-stand.ts';

export interface PlantOfGenet {
  readonly id: string;
  readonly code: string;
  readonly place: string | null;
  readonly placeName: string | null;
  readonly walk: number | null;
  readonly plantedOn: string | null;
  readonly goneOn: string | null;
  readonly goneWhy: string | null;
  readonly raisedAs: string | null;
  /** Set where the plant's label names another genet. */
  readonly labelledAs: string | null;
}

export interface TraitSummary {
  readonly trait: string;
  readonly name: string;
  readonly sort: TraitSort;
  readonly unit: string | null;
  readonly byYear: readonly {
    readonly year: number;
    readonly notes: number;
    /** Mean of numbers; for dates the mean day of the year; null for words. */
    readonly mean: number | null;
    readonly least: number | null;
    readonly most: number | null;
    readonly words: readonly string[];
  }[];
}

export interface DecisionShown {
  readonly on: string;
  readonly decision: string;
  readonly reason: string | null;
  readonly by: string | null;
  readonly about: string;
}

export interface GenetPage {
  readonly genet: PlantListRow & { readonly record: AnyRow };
  readonly plants: readonly PlantOfGenet[];
  readonly family: Family;
  readonly noteSummary: readonly TraitSummary[];
  readonly decisions: readonly DecisionShown[];
  /** Terms that bind it, its own and those that descend from ancestors. */
  readonly terms: readonly {
    readonly code: string;
    readonly asks: string;
    readonly fromWhom: string;
    readonly through: string;
  }[];
  /** The profile of its taxon, from which cautions are told; null where none is named. */
  readonly profile: string | null;
  readonly protection: string | null;
}

/** All that one genet's page shows. idOrCode: its id or its code. */
export async function readGenetPage(
  db: Kysely<Tables>,
  idOrCode: string,
  index?: readonly PlantListRow[],
): Promise<GenetPage> {
  const rows = index ?? (await readPlantIndex(db));
  const row = rows.find(({ id, code }) => id === idOrCode || code === idOrCode);
  if (!row) throw new RecordsError('absent', `there is no genet “${idOrCode}”`);
  const plants = await plantsOf(db, row.id);
  const taxon = row.taxon
    ? await db
        .selectFrom('taxa')
        .select(['profile', 'protected', 'protection', 'protection_as_of'])
        .where('name', '=', row.taxon)
        .executeTakeFirst()
    : undefined;
  return {
    genet: { ...row, record: (await readRecord(db, 'genets', row.id))! },
    plants,
    family: await readFamily(db, row.id),
    noteSummary: await summariseNotes(
      db,
      row.id,
      plants.map(({ id }) => id),
    ),
    decisions: await decisionsOn(db, row.id, plants),
    terms: await bindingTerms(db, row.id),
    profile: taxon?.profile ?? null,
    protection:
      taxon?.protected === 1
        ? [taxon.protection, taxon.protection_as_of && `list of ${taxon.protection_as_of}`]
            .filter(Boolean)
            .join(', ')
        : null,
  };
}

async function plantsOf(db: Kysely<Tables>, genet: string): Promise<PlantOfGenet[]> {
  const identities = await readIdentities(db);
  const places = await readPlaces(db);
  const candidates = await db
    .selectFrom('plants')
    .innerJoin('genets', 'genets.id', 'plants.genet')
    .select([
      'plants.id',
      'plants.code',
      'plants.genet',
      'plants.planted_on',
      'plants.gone_on',
      'plants.gone_why',
      'plants.raised_as',
      'genets.code as labelled',
    ])
    .where('plants.ended_act', 'is', null)
    .where((where) =>
      where.or([
        where('plants.genet', '=', genet),
        ...(identities.mended.size > 0 ? [where('plants.id', 'in', [...identities.mended])] : []),
      ]),
    )
    .orderBy('plants.code')
    .execute();
  return candidates
    .filter(({ id, genet: labelled }) => identities.now(id, labelled) === genet)
    .map((plant) => {
      const { place, walk } = places.now(plant.id);
      return {
        id: plant.id,
        code: plant.code,
        place: place ? (places.code.get(place) ?? null) : null,
        placeName: place ? (places.name.get(place) ?? null) : null,
        walk,
        plantedOn: plant.planted_on,
        goneOn: plant.gone_on,
        goneWhy: plant.gone_why,
        raisedAs: plant.raised_as,
        labelledAs: plant.genet === genet ? null : plant.labelled,
      };
    });
}

async function summariseNotes(
  db: Kysely<Tables>,
  genet: string,
  plants: readonly string[],
): Promise<TraitSummary[]> {
  const identities = await readIdentities(db);
  const asked = [...new Set([...plants, ...identities.mended])];
  const rows = await db
    .selectFrom('notes')
    .innerJoin('traits', 'traits.id', 'notes.trait')
    .leftJoin('plants', 'plants.id', 'notes.plant')
    .select([
      'notes.plant',
      'plants.genet as labelled',
      'traits.code',
      'traits.name',
      'traits.sort',
      'traits.unit',
      'notes.on',
      'notes.state',
      ...valueColumns,
    ])
    .where('notes.ended_act', 'is', null)
    .where((where) =>
      where.or([
        where('notes.genet', '=', genet),
        ...(asked.length > 0 ? [where('notes.plant', 'in', asked)] : []),
      ]),
    )
    .orderBy('traits.code')
    .orderBy('notes.on')
    .execute();
  const notes = rows.filter(
    ({ plant, labelled, on }) => !plant || !labelled || identities.on(plant, labelled, on) === genet,
  );
  const traits = new Map<
    string,
    {
      name: string;
      sort: TraitSort;
      unit: string | null;
      years: Map<number, { numbers: number[]; words: string[]; notes: number }>;
    }
  >();
  for (const note of notes) {
    const trait = traits.get(note.code) ?? {
      name: note.name,
      sort: note.sort as TraitSort,
      unit: note.unit,
      years: new Map(),
    };
    traits.set(note.code, trait);
    const year = Number(note.on.slice(0, 4));
    const of = trait.years.get(year) ?? { numbers: [], words: [], notes: 0 };
    trait.years.set(year, of);
    of.notes += 1;
    const value = heldValue(note);
    if (note.value_date) of.numbers.push(dayOfYear(note.value_date));
    else if (typeof value === 'number') of.numbers.push(value);
    else of.words.push(value === null ? (note.state ?? '') : shownValue(value, null));
  }
  return [...traits].map(([trait, { name, sort, unit, years }]) => ({
    trait,
    name,
    sort,
    unit,
    byYear: [...years].map(([year, { numbers, words, notes: count }]) => ({
      year,
      notes: count,
      mean: numbers.length > 0 ? numbers.reduce((sum, number) => sum + number, 0) / numbers.length : null,
      least: numbers.length > 0 ? Math.min(...numbers) : null,
      most: numbers.length > 0 ? Math.max(...numbers) : null,
      words: [...new Set(words)],
    })),
  }));
}

async function decisionsOn(
  db: Kysely<Tables>,
  genet: string,
  plants: readonly PlantOfGenet[],
): Promise<DecisionShown[]> {
  const codes = new Map(plants.map(({ id, code }) => [id, code]));
  const rows = await db
    .selectFrom('decisions')
    .leftJoin('people', 'people.id', 'decisions.by')
    .select([
      'decisions.on',
      'decisions.decision',
      'decisions.reason',
      'decisions.plant',
      'people.code as by',
    ])
    .where('decisions.ended_act', 'is', null)
    .where((where) =>
      where.or([
        where('decisions.genet', '=', genet),
        ...(codes.size > 0 ? [where('decisions.plant', 'in', [...codes.keys()])] : []),
      ]),
    )
    .orderBy('decisions.on', 'desc')
    .execute();
  return rows.map(({ plant, ...row }) => ({ ...row, about: plant ? (codes.get(plant) ?? '') : '' }));
}

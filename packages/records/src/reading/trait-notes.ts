import type { TraitNote } from '@keelrow/breeding/evaluation';
import { dayOfYear, keptAs, type TraitSort, yearOf } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { readConditions } from './conditions-of-places.ts';
import { readIdentities } from './identity.ts';
import { readPlaces } from './where-plants-stand.ts';

/** A trait with all its notes as the evaluation takes them, and the genets that they are on. */
export interface TraitNotes {
  readonly trait: {
    readonly id: string;
    readonly code: string;
    readonly name: string;
    readonly sort: TraitSort;
    readonly unit: string | null;
    /** Limits beyond which a value is a slip. */
    readonly least: number | null;
    readonly most: number | null;
    readonly wanted: string | null;
  };
  readonly notes: readonly TraitNote[];
  readonly genets: ReadonlyMap<string, { code: string; name: string | null; standard: boolean }>;
}

/** The part of a value that is read as a number: of a colour one coordinate, of a class its place in the trait's list. */
export type ValuePart = 'l' | 'a' | 'b' | 'class';

/**
 * Reads the notes of a trait that hold a value; dates as days of their year. Null where there is no such trait.
 * part: for traits that are colours or classes; their notes have no number without it.
 */
export async function readTraitNotes(
  db: Kysely<Tables>,
  traitCode: string,
  part: ValuePart | null = null,
): Promise<TraitNotes | null> {
  const trait = await db
    .selectFrom('traits')
    .select(['id', 'code', 'name', 'sort', 'unit', 'least', 'most', 'wanted', 'classes'])
    .where('ended_act', 'is', null)
    .where((where) => where.or([where('code', '=', traitCode), where('id', '=', traitCode)]))
    .executeTakeFirst();
  if (!trait) return null;
  const identities = await readIdentities(db);
  const places = await readPlaces(db);
  const conditions = await readConditions(db, places);
  const isDate = keptAs[trait.sort as TraitSort] === 'date';
  const held = part === 'class' ? 'value_text' : part ? (`value_${part}` as const) : null;
  const column = held ?? (isDate ? 'value_date' : 'value_number');
  const { classes: listed, ...shown } = trait;
  const classes = listed?.split(' | ') ?? [];
  const rows = await db
    .selectFrom('notes')
    .leftJoin('plants', 'plants.id', 'notes.plant')
    .leftJoin('people', 'people.id', 'notes.by')
    .select([
      'notes.id',
      'notes.plant',
      'notes.genet',
      'plants.genet as labelled',
      'plants.planted_on',
      'plants.age_at_planting',
      'notes.on',
      'notes.value_date',
      `notes.${column} as value`,
      'notes.grown_at',
      'people.code as observer',
    ])
    .where('notes.trait', '=', trait.id)
    .where('notes.ended_act', 'is', null)
    .where(`notes.${column}`, 'is not', null)
    .orderBy('notes.on')
    .orderBy('notes.id')
    .execute();
  const known = await db
    .selectFrom('genets')
    .select(['id', 'code', 'name', 'standard', 'raised_in'])
    .where('ended_act', 'is', null)
    .execute();
  const genets = new Map(
    known.map(({ id, code, name, standard, raised_in }) => [
      id,
      { code, name, standard: standard === 1, raisedIn: raised_in },
    ]),
  );
  const numberOf = (text: string) => (part === 'class' ? classes.indexOf(text) : dayOfYear(text));
  const notes: TraitNote[] = [];
  for (const row of rows) {
    const genet = row.plant && row.labelled ? identities.on(row.plant, row.labelled, row.on) : row.genet;
    if (!genet || !genets.has(genet)) continue;
    const stood = row.plant ? places.on(row.plant, row.on) : null;
    const place = row.grown_at ?? stood?.place ?? null;
    // Distances are from the corner of the place that the plant's own record names.
    const measured = place !== null && place === stood?.place ? stood : null;
    const [site, bed] = [places.siteOf(place), places.bedOf(place)];
    const day = row.value_date ?? row.on;
    const raised = row.planted_on
      ? yearOf(row.planted_on) - (row.age_at_planting ?? 0)
      : genets.get(genet)!.raisedIn;
    notes.push({
      note: row.id,
      value: typeof row.value === 'number' ? row.value : numberOf(row.value!),
      genet,
      plant: row.plant,
      year: yearOf(day),
      site: site ? (places.code.get(site) ?? null) : null,
      bed: bed ? (places.code.get(bed) ?? null) : null,
      age: raised === null ? null : yearOf(day) - raised,
      observer: row.observer,
      east: measured?.eastM ?? null,
      north: measured?.northM ?? null,
      ...conditions(place, row.on),
    });
  }
  return { trait: { ...shown, sort: trait.sort as TraitSort }, notes, genets };
}

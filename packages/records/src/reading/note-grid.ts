import type { Lab } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import { readIdentities } from './identity.ts';
import { heldValue, shownValue, valueColumns } from './shown-value.ts';
import { readTraits, type TraitShown } from './traits.ts';
import { readPlaces } from './where-plants-stand.ts';

export interface NoteCell {
  readonly id: string;
  readonly on: string;
  readonly state: string;
  readonly value: number | string | Lab | null;
  readonly by: string | null;
  /** Number of standing notes of this trait and year on the plant. */
  readonly count: number;
}

export interface NoteGridRow {
  readonly plant: string;
  readonly plantCode: string;
  readonly genetCode: string;
  readonly genetName: string | null;
  readonly place: string | null;
  readonly walk: number | null;
  /** By trait code, the latest standing note of the year. */
  readonly cells: Readonly<Record<string, NoteCell | undefined>>;
  /** By trait code, the value of the latest earlier year. */
  readonly before: Readonly<Record<string, { readonly year: number; readonly shown: string } | undefined>>;
}

export interface NoteGrid {
  readonly place: { readonly code: string; readonly name: string | null } | null;
  readonly traits: readonly TraitShown[];
  readonly year: number;
  readonly rows: readonly NoteGridRow[];
}

export interface NoteGridWanted {
  /** Code of a bed; all living plants where it is not given. */
  readonly place?: string;
  /** Ids of the plants of a printed sheet: these, in this order, wherever they stand now and gone or not. */
  readonly plants?: readonly string[];
  readonly traits: readonly string[];
  readonly year: number;
}

/** The living plants of a bed in walking order with their notes of a year and what was noted before. */
export async function readNoteGrid(db: Kysely<Tables>, wanted: NoteGridWanted): Promise<NoteGrid> {
  const places = await readPlaces(db);
  const place = wanted.place ? [...places.code].find(([, code]) => code === wanted.place) : undefined;
  if (wanted.place && !place) throw new RecordsError('absent', `there is no place “${wanted.place}”`);
  const all = await readTraits(db);
  const traits = wanted.traits.flatMap((code) => all.filter((trait) => trait.code === code));
  const identities = await readIdentities(db);
  const printed = wanted.plants ? new Map(wanted.plants.map((plant, at) => [plant, at])) : null;
  const plants = await db
    .selectFrom('plants')
    .select(['id', 'code', 'genet', 'gone_on'])
    .where('ended_act', 'is', null)
    .$if(printed === null, (query) =>
      query.where((where) =>
        where.or([where('gone_on', 'is', null), where('gone_on', '>=', `${wanted.year}-01-01`)]),
      ),
    )
    .execute();
  const genets = new Map(
    (await db.selectFrom('genets').select(['id', 'code', 'name']).execute()).map((genet) => [
      genet.id,
      genet,
    ]),
  );
  const rows: (NoteGridRow & {
    cells: Record<string, NoteCell>;
    before: Record<string, { year: number; shown: string }>;
  })[] = [];
  for (const { id, code, genet: labelled } of plants) {
    const standing = places.now(id);
    const bed = places.bedOf(standing.place) ?? standing.place;
    if (printed ? !printed.has(id) : place && standing.place !== place[0] && bed !== place[0]) continue;
    const genet = genets.get(identities.now(id, labelled));
    rows.push({
      plant: id,
      plantCode: code,
      genetCode: genet?.code ?? '',
      genetName: genet?.name ?? null,
      place: bed ? (places.code.get(bed) ?? null) : null,
      walk: standing.walk,
      cells: {},
      before: {},
    });
  }
  const inOrder = new Intl.Collator('en', { numeric: true });
  rows.sort(
    (a, b) =>
      (printed ? printed.get(a.plant)! - printed.get(b.plant)! : 0) ||
      inOrder.compare(a.place ?? '', b.place ?? '') ||
      (a.walk ?? Infinity) - (b.walk ?? Infinity) ||
      inOrder.compare(a.plantCode, b.plantCode),
  );
  await fillCells(db, wanted.year, traits, new Map(rows.map((row) => [row.plant, row])));
  return {
    place: place ? { code: place[1], name: places.name.get(place[0]) ?? null } : null,
    traits,
    year: wanted.year,
    rows,
  };
}

async function fillCells(
  db: Kysely<Tables>,
  year: number,
  traits: readonly TraitShown[],
  rows: ReadonlyMap<
    string,
    { cells: Record<string, NoteCell>; before: Record<string, { year: number; shown: string }> }
  >,
): Promise<void> {
  if (traits.length === 0) return;
  const byId = new Map(traits.map((trait) => [trait.id, trait]));
  const notes = await db
    .selectFrom('notes')
    .leftJoin('people', 'people.id', 'notes.by')
    .select([
      'notes.id',
      'notes.plant',
      'notes.trait',
      'notes.on',
      'notes.state',
      'people.code as by',
      ...valueColumns,
    ])
    .where('notes.trait', 'in', [...byId.keys()])
    .where('notes.plant', 'is not', null)
    .where('notes.ended_act', 'is', null)
    .where('notes.on', '<=', `${year}-12-31`)
    .orderBy('notes.on')
    .orderBy('notes.id')
    .execute();
  for (const note of notes) {
    const row = rows.get(note.plant!);
    if (!row) continue;
    const trait = byId.get(note.trait)!;
    const value = heldValue(note);
    const noteYear = Number(note.on.slice(0, 4));
    if (noteYear < year) {
      const shown = shownValue(value, trait.unit);
      if (shown !== '') row.before[trait.code] = { year: noteYear, shown };
      continue;
    }
    const earlier = row.cells[trait.code];
    row.cells[trait.code] = {
      id: note.id,
      on: note.on,
      state: note.state ?? 'seen',
      value,
      by: note.by,
      count: (earlier?.count ?? 0) + 1,
    };
  }
}

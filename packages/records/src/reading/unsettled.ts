import { keptAs, type Lab, type TraitSort } from '@keelrow/breeding/facts';
import { type Kysely, sql } from 'kysely';
import { chunksOf } from '../schema/any-table.ts';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';
import { heldValue, valueColumns } from './shown-value.ts';

/** Standing notes of one plant, trait and day (stages: year) that say different things and were made apart. */
export interface UnsettledCase {
  readonly plant: { readonly id: string; readonly code: string };
  readonly trait: {
    readonly id: string;
    readonly code: string;
    readonly name: string;
    readonly unit: string | null;
  };
  readonly notes: readonly UnsettledNote[];
}

export interface UnsettledNote {
  readonly id: string;
  readonly on: string;
  readonly state: string;
  readonly value: number | string | Lab | null;
  readonly by: string | null;
  readonly device: string | null;
  /** When it was made by the clock of the phone or computer that made it, else when it was stored; ISO 8601. */
  readonly at: string;
  readonly remark: string | null;
  /** Hash of its picture. */
  readonly photo: string | null;
}

/** Notes with what tells whether they were made apart. */
interface Made extends UnsettledNote {
  /** The act by which it was made, or the note was that it corrects. */
  readonly act: number;
}

/** Cases shown at once; more come to light as these are settled. */
const shownAtOnce = 300;

/**
 * Notes that contradict each other and were made by different people or on different devices, and were not settled
 * to stand side by side; latest first. Texts, pictures and spoken notes contradict nothing, nor does a skipped plant.
 */
export const readUnsettled = (db: Kysely<Tables>): Promise<UnsettledCase[]> =>
  untilNextAct(db, 'unsettled', unsettledNow);

async function unsettledNow(db: Kysely<Tables>): Promise<UnsettledCase[]> {
  const ids = await notedMoreThanOnce(db);
  const settled = await settledTogether(db);
  const groups = new Map<string, { case: Omit<UnsettledCase, 'notes'>; sort: TraitSort; notes: Made[] }>();
  for (const chunk of chunksOf(ids, 5000)) {
    const rows = await notesInFull(db, chunk);
    const firstActs = await actsOfFirst(db, rows);
    for (const row of rows) {
      const sort = row.sort as TraitSort;
      const key = [row.plant, row.trait, sort === 'staged' ? row.on.slice(0, 4) : row.on].join(' ');
      const group = groups.get(key) ?? {
        case: {
          plant: { id: row.plant!, code: row.plant_code },
          trait: { id: row.trait, code: row.trait_code, name: row.trait_name, unit: row.unit },
        },
        sort,
        notes: [],
      };
      group.notes.push({
        id: row.id,
        on: row.on,
        state: row.state ?? 'seen',
        value: heldValue(row),
        by: row.by,
        device: row.device,
        at: (row.via === 'phone' || row.via === 'browser' ? madeAt(row.id) : null) ?? row.act_at,
        remark: row.remark,
        photo: row.photo,
        act: firstActs.get(row.id) ?? row.made_act,
      });
      groups.set(key, group);
    }
  }
  return [...groups.values()]
    .map(({ case: about, sort, notes }) => ({
      act: Math.max(...notes.map(({ act }) => act)),
      case: { ...about, notes: contested(notes, sort, settled) },
    }))
    .filter(({ case: { notes } }) => notes.length > 1)
    .sort((a, b) => b.act - a.act)
    .slice(0, shownAtOnce)
    .map((found) => found.case);
}

/** Ids of standing notes whose plant, trait and day (stages: year) have notes of more than one act. */
async function notedMoreThanOnce(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<{ id: string }>`
    with noted as (
      select notes.id, notes.plant, notes.trait, notes.made_act,
        case when traits.sort = 'staged' then substr(notes."on", 1, 4) else notes."on" end as day
      from notes join traits on traits.id = notes.trait
      where notes.ended_act is null and notes.plant is not null
        and traits.sort not in ('pictured', 'spoken', 'written')
        and coalesce(notes.state, 'seen') <> 'skipped'
    ), often as (
      select plant, trait, day from noted group by plant, trait, day
      having count(*) > 1 and min(made_act) < max(made_act)
    )
    select noted.id from noted join often
      on often.plant = noted.plant and often.trait = noted.trait and often.day = noted.day
    order by noted.id`.execute(db);
  return rows.map(({ id }) => id);
}

const notesInFull = (db: Kysely<Tables>, ids: readonly string[]) =>
  db
    .selectFrom('notes')
    .innerJoin('plants', 'plants.id', 'notes.plant')
    .innerJoin('traits', 'traits.id', 'notes.trait')
    .innerJoin('acts', 'acts.seq', 'notes.made_act')
    .leftJoin('devices', 'devices.id', 'acts.device')
    .leftJoin('people', 'people.id', 'notes.by')
    .leftJoin('photos', 'photos.id', 'notes.photo')
    .select([
      'notes.id',
      'notes.plant',
      'plants.code as plant_code',
      'notes.trait',
      'traits.code as trait_code',
      'traits.name as trait_name',
      'traits.sort',
      'traits.unit',
      'notes.on',
      'notes.state',
      'notes.remark',
      'notes.made_act',
      'notes.replaces',
      'people.code as by',
      'devices.code as device',
      'photos.hash as photo',
      'acts.at as act_at',
      'acts.via',
      ...valueColumns,
    ])
    .where('notes.id', 'in', ids)
    .orderBy('notes.made_act')
    .orderBy('notes.id')
    .execute();

/**
 * Of corrections the act by which the first of their chain was made: two people's counts taken in together are no
 * contradiction once one of them has mended a slip.
 */
async function actsOfFirst(
  db: Kysely<Tables>,
  notes: readonly { readonly id: string; readonly replaces: string | null }[],
): Promise<ReadonlyMap<string, number>> {
  const acts = new Map<string, number>();
  // The note of a chain that has been come to, and the note asked about. A note is ended once, so no chain closes.
  let reached = notes.flatMap(({ id, replaces }) => (replaces ? [{ asked: id, id, replaces }] : []));
  while (reached.length > 0) {
    const earlier = await db
      .selectFrom('endings')
      .innerJoin('notes', 'notes.id', 'endings.record')
      .select(['notes.id', 'notes.made_act', 'notes.replaces', 'endings.by_record'])
      .where(
        'endings.record',
        'in',
        reached.map(({ replaces }) => replaces),
      )
      .where('endings.what', '=', 'replaced')
      .execute();
    const by = new Map(earlier.map((row) => [row.by_record, row]));
    reached = reached.flatMap(({ asked, id }) => {
      const found = by.get(id);
      if (!found) return [];
      acts.set(asked, found.made_act);
      return found.replaces ? [{ asked, id: found.id, replaces: found.replaces }] : [];
    });
  }
  return acts;
}

/** Notes that were settled to stand, by the acts that settled them. */
async function settledTogether(db: Kysely<Tables>): Promise<ReadonlyMap<string, ReadonlySet<number>>> {
  const rows = await db.selectFrom('settlements').select(['act', 'note']).execute();
  const acts = new Map<string, Set<number>>();
  for (const { act, note } of rows) {
    const of = acts.get(note) ?? new Set();
    of.add(Number(act));
    acts.set(note, of);
  }
  return acts;
}

/** Those of the notes that contradict another made apart from them, unless the two were settled to stand. */
function contested(
  notes: readonly Made[],
  sort: TraitSort,
  settled: ReadonlyMap<string, ReadonlySet<number>>,
): UnsettledNote[] {
  const isSettled = (a: Made, b: Made) =>
    [...(settled.get(a.id) ?? [])].some((act) => settled.get(b.id)?.has(act));
  const isAgainst = (a: Made, b: Made) =>
    a.act !== b.act && (a.by !== b.by || a.device !== b.device) && contradict(a, b, sort) && !isSettled(a, b);
  return notes
    .filter((note) => notes.some((other) => other !== note && isAgainst(note, other)))
    .map(({ act: _, ...note }) => note);
}

/** Whether two notes of one trait and day (stages: year) cannot both be right. */
function contradict(a: UnsettledNote, b: UnsettledNote, sort: TraitSort): boolean {
  if (keptAs[sort] === 'text' || a.state === 'skipped' || b.state === 'skipped') return false;
  if (a.state === 'seen' && b.state === 'seen') return said(a.value) !== said(b.value);
  if (a.state === b.state) return false;
  if (sort !== 'staged') return true;
  // Not yet on the first of May and first flower on the fifth are both right.
  const [seen, other] = a.state === 'seen' ? [a, b] : [b, a];
  if (seen.state !== 'seen') return a.on === b.on;
  return other.state === 'not yet' ? String(seen.value) <= other.on : String(seen.value) > other.on;
}

const said = (value: UnsettledNote['value']): string =>
  typeof value === 'object' && value !== null ? `${value.l} ${value.a} ${value.b}` : String(value);

/** The moment that a UUIDv7 tells, by the clock of who made it; source: RFC 9562, section 5.7. */
function madeAt(id: string): string | null {
  if (id[14] !== '7') return null;
  const moment = new Date(Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16));
  return Number.isNaN(moment.getTime()) ? null : moment.toISOString();
}

import { isEstimable, type TraitSort } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';

export interface TraitShown {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly sort: TraitSort;
  readonly unit: string | null;
  readonly least: number | null;
  readonly most: number | null;
  readonly classes: readonly string[];
  readonly wanted: 'more' | 'less' | 'neither' | null;
  readonly how: string | null;
  readonly notes: number;
  /** Can be put on a number line and so be ranked. */
  readonly estimable: boolean;
}

/** All traits with the number of their notes, most noted first. */
export const readTraits = (db: Kysely<Tables>): Promise<TraitShown[]> =>
  untilNextAct(db, 'traits', traitsNow);

async function traitsNow(db: Kysely<Tables>): Promise<TraitShown[]> {
  const counts = await db
    .selectFrom('notes')
    .select(({ fn }) => ['trait', fn.countAll<number>().as('notes')])
    .where('ended_act', 'is', null)
    .groupBy('trait')
    .execute();
  const notes = new Map(counts.map(({ trait, notes: count }) => [trait, Number(count)]));
  const rows = await db
    .selectFrom('traits')
    .select(['id', 'code', 'name', 'sort', 'unit', 'least', 'most', 'classes', 'wanted', 'how'])
    .where('ended_act', 'is', null)
    .execute();
  return rows
    .map((row) => ({
      ...row,
      sort: row.sort as TraitSort,
      wanted: row.wanted as TraitShown['wanted'],
      classes: row.classes ? row.classes.split(' | ') : [],
      notes: notes.get(row.id) ?? 0,
      estimable: isEstimable(row.sort as TraitSort),
    }))
    .sort((a, b) => b.notes - a.notes || (a.code < b.code ? -1 : 1));
}

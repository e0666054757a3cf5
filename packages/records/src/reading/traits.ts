import { isEstimable, type TraitSort } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';

/** Kinds that notes are taken on beside plants and genets. */
export type NotedElsewhere = 'crosses' | 'seed-lots' | 'batches' | 'places';

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
  /** Of these, notes on what is neither plant nor genet, by kind. */
  readonly notesElsewhere: readonly { readonly on: NotedElsewhere; readonly notes: number }[];
  /** Can be put on a number line and so be ranked. */
  readonly estimable: boolean;
}

const kindsElsewhere: readonly NotedElsewhere[] = ['crosses', 'seed-lots', 'batches', 'places'];

/** All traits with the number of their notes, most noted first. */
export const readTraits = (db: Kysely<Tables>): Promise<TraitShown[]> =>
  untilNextAct(db, 'traits', traitsNow);

async function traitsNow(db: Kysely<Tables>): Promise<TraitShown[]> {
  const counts = await db
    .selectFrom('notes')
    .select(({ fn }) => [
      'trait',
      fn.countAll<number>().as('notes'),
      fn.count<number>('cross').as('crosses'),
      fn.count<number>('seed_lot').as('seed-lots'),
      fn.count<number>('batch').as('batches'),
      fn.count<number>('place').as('places'),
    ])
    .where('ended_act', 'is', null)
    .groupBy('trait')
    .execute();
  const countOf = new Map(counts.map((row) => [row.trait, row]));
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
      notes: Number(countOf.get(row.id)?.notes ?? 0),
      notesElsewhere: kindsElsewhere.flatMap((on) => {
        const notes = Number(countOf.get(row.id)?.[on] ?? 0);
        return notes > 0 ? [{ on, notes }] : [];
      }),
      estimable: isEstimable(row.sort as TraitSort),
    }))
    .sort((a, b) => b.notes - a.notes || (a.code < b.code ? -1 : 1));
}

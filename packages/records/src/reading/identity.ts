import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';

/** Says of which genet a plant truly is, and was on a day, after identities were mended. */
export interface Identities {
  /** The genet that the plant is held to be now. labelled: the genet on its label. */
  now(plant: string, labelled: string): string;
  /** The genet to which a note of that day belongs. */
  on(plant: string, labelled: string, day: string): string;
  readonly mended: ReadonlySet<string>;
}

interface Mended {
  readonly genet: string;
  readonly on: string;
  readonly earlier: 'move' | 'stay';
}

/**
 * Reads all mended identities. Of a plant mended several times the latest before the day counts; notes before it
 * belong to the true genet where they were said to move, else to the one the plant was held to be then.
 */
export const readIdentities = (db: Kysely<Tables>): Promise<Identities> =>
  untilNextAct(db, 'identities', identitiesNow);

async function identitiesNow(db: Kysely<Tables>): Promise<Identities> {
  const rows = await db
    .selectFrom('identities')
    .select(['plant', 'genet', 'on', 'earlier_notes'])
    .where('ended_act', 'is', null)
    .orderBy('on')
    .orderBy('id')
    .execute();
  const byPlant = new Map<string, Mended[]>();
  for (const { plant, genet, on, earlier_notes } of rows) {
    const list = byPlant.get(plant) ?? [];
    list.push({ genet, on, earlier: earlier_notes as Mended['earlier'] });
    byPlant.set(plant, list);
  }
  return {
    mended: new Set(byPlant.keys()),
    now: (plant, labelled) => byPlant.get(plant)?.at(-1)?.genet ?? labelled,
    on(plant, labelled, day) {
      let genet = labelled;
      for (const mended of byPlant.get(plant) ?? []) {
        if (mended.on <= day || mended.earlier === 'move') genet = mended.genet;
      }
      return genet;
    },
  };
}

import type { PlantWinter } from '@keelrow/breeding/evaluation';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { readIdentities } from './identity.ts';
import { readPedigree } from './pedigree.ts';
import { readPlaces } from './where-plants-stand.ts';
import { readWinterMinima, winterOf } from './winter-minima.ts';

/**
 * Each standing plant through each winter as far as the records tell: it stood there when the winter began, and was
 * still there, or gone, at its end. A plant that was discarded or rogued before it went was taken out, not lost, unless a
 * note says that it was dead; its last winter is left out.
 */
export async function readPlantWinters(db: Kysely<Tables>): Promise<PlantWinter[]> {
  const places = await readPlaces(db);
  const identities = await readIdentities(db);
  const minimumOf = await readWinterMinima(db);
  const groups = new Map(
    (await readPedigree(db)).map(({ genet, group, seedParents, pollenParents }) => [
      genet,
      seedParents.length + pollenParents.length > 0 ? 'raised in the garden' : group,
    ]),
  );
  const plants = await db
    .selectFrom('plants')
    .select(['id', 'genet', 'planted_on', 'gone_on'])
    .where('ended_act', 'is', null)
    .orderBy('id')
    .execute();
  const { first, last, dead } = await readSightings(db);
  const takenOut = await readTakenOut(db);
  const today = [...last.values()].reduce((latest, day) => (day > latest ? day : latest), '');
  const rows: PlantWinter[] = [];
  for (const { id, genet: labelled, planted_on, gone_on } of plants) {
    const from = planted_on ?? first.get(id);
    if (!from) continue;
    const until = gone_on ?? today;
    const outOn = takenOut.get(id);
    const wasTaken = gone_on !== null && outOn !== undefined && outOn <= gone_on && !dead.has(id);
    const place = places.on(id, from).place;
    const site = places.siteOf(place);
    let isFirst = true;
    for (let year = Number(from.slice(0, 4)); ; year++) {
      const { begin, end } = winterOf(year, minimumOf.isSouthern(site));
      // Of a winter that the notes do not reach the end of, the lost are known and the survivors are not.
      if (begin > until || end > today) break;
      if (from >= begin) continue;
      const lost = gone_on !== null && gone_on <= end;
      const known = lost ? !wasTaken : end <= until;
      if (known) {
        const genet = identities.on(id, labelled, begin);
        rows.push({
          plant: id,
          genet,
          origin: groups.get(genet) ?? null,
          winter: year,
          minimum: minimumOf.minimum(places.siteOf(places.on(id, begin).place), year),
          first: isFirst,
          survived: !lost,
        });
      }
      isFirst = false;
      if (lost) break;
    }
  }
  return rows;
}

/** First and last note on each plant, and plants that a note found dead. */
async function readSightings(db: Kysely<Tables>) {
  const notes = await db
    .selectFrom('notes')
    .select(['plant', 'on', 'state'])
    .where('plant', 'is not', null)
    .where('ended_act', 'is', null)
    .orderBy('on')
    .execute();
  const first = new Map<string, string>();
  const last = new Map<string, string>();
  const dead = new Set<string>();
  for (const { plant, on, state } of notes) {
    if (plant === null) continue;
    if (!first.has(plant)) first.set(plant, on);
    last.set(plant, on);
    if (state === 'dead') dead.add(plant);
  }
  return { first, last, dead };
}

/** The day on which a plant, by itself, was first to be discarded or rogued. */
async function readTakenOut(db: Kysely<Tables>): Promise<Map<string, string>> {
  const decisions = await db
    .selectFrom('decisions')
    .select(['plant', 'on'])
    .where('decision', 'in', ['discard', 'rogue'])
    .where('plant', 'is not', null)
    .where('ended_act', 'is', null)
    .orderBy('on')
    .execute();
  const days = new Map<string, string>();
  for (const { plant, on } of decisions) if (plant !== null && !days.has(plant)) days.set(plant, on);
  return days;
}

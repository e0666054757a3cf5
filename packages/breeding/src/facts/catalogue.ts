import type { AnyRow, Field, Kind, RowOf } from './field.ts';
import { briefLimits, briefs, disclosures, trialEntries, trials } from './kinds/choice.ts';
import { crosses, pollenLots, pollenTests, pollinations } from './kinds/crossing.ts';
import { batchCounts, batches } from './kinds/increase.ts';
import { notes, photos, traits } from './kinds/notes.ts';
import { accessions, determinations, localities, taxa, terms } from './kinds/origin.ts';
import { devices, people } from './kinds/people.ts';
import { placeConditions, places, weather } from './kinds/places.ts';
import { decisions, genets, identities, moves, plants } from './kinds/plants.ts';
import { germinationTests, harvests, seedLots, seedMovements, sowingCounts, sowings } from './kinds/seed.ts';

/**
 * Every kind of record, under the name that the command, the files and the API use.
 * The order is one in which a kind comes after those it refers to, but for genets and crosses, which refer to
 * each other; a whole programme is read in this order with references filled in at the end (see records).
 */
export const catalogue = {
  people,
  devices,
  taxa,
  localities,
  places,
  'place-conditions': placeConditions,
  traits,
  briefs,
  'brief-limits': briefLimits,
  accessions,
  genets,
  crosses,
  'seed-lots': seedLots,
  sowings,
  batches,
  plants,
  photos,
  determinations,
  terms,
  moves,
  identities,
  notes,
  decisions,
  'pollen-lots': pollenLots,
  'pollen-tests': pollenTests,
  pollinations,
  harvests,
  'seed-movements': seedMovements,
  'germination-tests': germinationTests,
  'sowing-counts': sowingCounts,
  'batch-counts': batchCounts,
  trials,
  'trial-entries': trialEntries,
  disclosures,
  weather,
} as const;

export type Catalogue = typeof catalogue;
export type KindName = keyof Catalogue;
/** A record of kind K as it stands in files and passes between floors. */
export type Row<K extends KindName> = RowOf<Catalogue[K]['fields']>;

export const kindNames = Object.keys(catalogue) as KindName[];

export function isKindName(name: string): name is KindName {
  return Object.hasOwn(catalogue, name);
}

/** The declaration of a kind, seen without its particular fields: for code that serves every kind alike. */
export function kindOf(name: KindName): Kind {
  return catalogue[name] as unknown as Kind;
}

/** Fields of a kind in the order of its file columns. */
export function fieldsOf(name: KindName): [string, Field][] {
  return Object.entries(kindOf(name).fields);
}

/** What people call this record: its code, or for a fact its day. */
export function labelOf(name: KindName, row: AnyRow): string {
  const key = kindOf(name).key;
  return String((key ? row[key] : (row.on ?? row.started_on)) ?? row.id ?? '');
}

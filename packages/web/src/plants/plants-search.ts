import type { PlantSort } from '@keelrow/server/contract';
import type { PlantsWanted } from '../api/queries.ts';
import { oneOf, text } from '../search-words.ts';

const plantSorts = [
  'code',
  'name',
  'taxon',
  'origin',
  'raisedIn',
  'alive',
  'notes',
  'lastNotedOn',
  'decision',
] as const satisfies readonly PlantSort[];

/** Which plants are wanted stands in the address, so that a list can be kept as a link and come back to. */
export function readPlantsSearch(search: Record<string, unknown>): PlantsWanted {
  return {
    search: text(search.search),
    origin: text(search.origin),
    place: text(search.place),
    decision: text(search.decision),
    alive: oneOf(search.alive, ['yes', 'no']),
    sort: oneOf(search.sort, plantSorts),
    descending: search.descending === true ? true : undefined,
  };
}

/** Clicking a column: sort by it, then the other way round, then back to the usual order. */
export function sortedBy(wanted: PlantsWanted, sort: PlantSort): PlantsWanted {
  if (wanted.sort !== sort) return { ...wanted, sort, descending: undefined };
  return wanted.descending
    ? { ...wanted, sort: undefined, descending: undefined }
    : { ...wanted, descending: true };
}

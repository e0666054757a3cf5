import type { HeldPlant } from '@keelrow/server/contract';

export type PlacedPlant = HeldPlant & { readonly eastM: number; readonly northM: number };

export const isPlaced = (plant: HeldPlant): plant is PlacedPlant =>
  plant.eastM !== null && plant.northM !== null;

/**
 * Rows along the length of a bed, from its first corner on, each in the order of its length. Plants whose distance
 * across the bed differs by less than half of the usual distance between neighbours stand in one row.
 */
export function rowsOfBed(plants: readonly PlacedPlant[]): PlacedPlant[][] {
  const across = [...plants].sort((a, b) => a.northM - b.northM);
  const apart = usualGap(across.map(({ northM }) => northM)) / 2;
  const rows: PlacedPlant[][] = [];
  for (const plant of across) {
    const row = rows.at(-1);
    if (row && plant.northM - row.at(-1)!.northM < apart) row.push(plant);
    else rows.push([plant]);
  }
  for (const row of rows) row.sort((a, b) => a.eastM - b.eastM);
  return rows;
}

/** Steps smaller than this are the unevenness of one row, whatever the others are. */
const withinOneRow = 0.12;

/** The median step from row to row, metres; infinite where all stand in one. */
function usualGap(sorted: readonly number[]): number {
  const steps = sorted
    .slice(1)
    .map((value, index) => value - sorted[index]!)
    .filter((step) => step > withinOneRow)
    .sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? Number.POSITIVE_INFINITY;
}

import { inWords, measureOf, type Units } from '@keelrow/breeding/facts';
import type { HeldPlant } from '@keelrow/server/contract';
import { isPlaced, rowsOfBed } from './rows-of-bed.ts';

/** Where a plant stands, for one who looks for it: `row 2, 5th of 12, 3.6 m along`; empty where nothing is on record. */
export function placeInWords(plant: HeldPlant, inBed: readonly HeldPlant[], units: Units): string {
  const parts: string[] = [];
  const placed = inBed.filter(isPlaced);
  const rows = rowsOfBed(placed);
  const row = rows.findIndex((one) => one.some(({ id }) => id === plant.id));
  if (row >= 0) {
    const at = rows[row]!.findIndex(({ id }) => id === plant.id);
    parts.push(`row ${row + 1}, ${ordinal(at + 1)} of ${rows[row]!.length}`);
  } else if (plant.walk !== null) parts.push(`no. ${plant.walk}`);
  if (plant.eastM !== null) {
    const measure = measureOf('m', units);
    parts.push(`${inWords(Number(plant.eastM.toFixed(1)), tenths(measure))} along`);
  }
  return parts.join(', ');
}

const tenths = (measure: ReturnType<typeof measureOf>): ReturnType<typeof measureOf> => ({
  ...measure,
  toShown: (stored) => Number(measure.toShown(stored).toFixed(1)),
});

function ordinal(number: number): string {
  const last = number % 100;
  if (last >= 11 && last <= 13) return `${number}th`;
  return `${number}${['th', 'st', 'nd', 'rd'][number % 10] ?? 'th'}`;
}

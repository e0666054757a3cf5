import type { HeldPlant } from '@keelrow/server/contract';
import type { Direction } from '../rounds/round.ts';
import { isPlaced, rowsOfBed } from './rows-of-bed.ts';

/**
 * The plants of a bed in the order in which they are walked. By numbers where those are chosen or where not every
 * plant has its place measured; plants without a number come last, by code.
 */
export function walkingOrder(plants: readonly HeldPlant[], direction: Direction): HeldPlant[] {
  if (direction.way === 'numbered' || !plants.every(isPlaced)) {
    const order = [...plants].sort(byNumber);
    return direction.end === 'last' ? order.reverse() : order;
  }
  const rows = rowsOfBed(plants);
  if (direction.side === 'last') rows.reverse();
  return rows.flatMap((row, index) => {
    const turns = direction.way === 'serpentine' && index % 2 === 1;
    return (direction.end === 'last') === turns ? row : row.reverse();
  });
}

const codes = new Intl.Collator('en', { numeric: true });

const byNumber = (a: HeldPlant, b: HeldPlant): number =>
  (a.walk ?? Number.MAX_VALUE) - (b.walk ?? Number.MAX_VALUE) || codes.compare(a.code, b.code);

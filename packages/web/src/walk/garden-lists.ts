import type { HeldPlant, TraitShown } from '@keelrow/server/contract';
import type { HoldingsInHand } from '../phone/use-holdings.ts';
import type { RoundInHand } from './round-in-hand.ts';
import { latestSeen } from './slips/compared.ts';

/** Every plant on the phone, those of the round first. */
export function plantsRoundFirst({ plants }: RoundInHand, garden: HoldingsInHand): HeldPlant[] {
  const inRound = new Set(plants.map(({ id }) => id));
  const others = garden.places.flatMap(({ id }) => garden.plantsInBed(id));
  return [...plants, ...others.filter(({ id }) => !inRound.has(id))];
}

/** One plant for each genet on the phone. */
export function oneOfEachGenet(garden: HoldingsInHand): HeldPlant[] {
  const plants = garden.places.flatMap(({ id }) => garden.plantsInBed(id));
  return [...new Map(plants.map((plant) => [plant.genet, plant])).values()];
}

/** The latest numbers of a trait in a bed, as stored: what its values there usually are. */
export const usualNumbers = (
  garden: HoldingsInHand,
  inBed: readonly HeldPlant[],
  trait: TraitShown,
): number[] =>
  inBed.flatMap(({ id }) => {
    const value = latestSeen(garden.notesOn(id), trait.id, () => true)?.value;
    return typeof value === 'number' ? [value] : [];
  });

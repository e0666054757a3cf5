import type { Stop } from '../rounds/round.ts';

/** The stops of a walk: plants in their order, traits in theirs. */
export interface Walk {
  readonly plants: readonly string[];
  readonly traits: readonly string[];
  /** Whether a stop needs no note any more. */
  isDone(plant: string, trait: string): boolean;
}

/**
 * The first stop at or after a place in the walk that is not done; null at the end of the bed. justDone: the stop
 * that was noted this moment, which the walk may not know of yet; wholePlant: so were the plant's other traits.
 */
export function nextStop(
  walk: Walk,
  from: Stop | null,
  justDone: (Stop & { readonly wholePlant?: boolean }) | null = null,
): Stop | null {
  const start = from === null ? 0 : Math.max(0, walk.plants.indexOf(from.plant));
  for (let at = start; at < walk.plants.length; at++) {
    const plant = walk.plants[at]!;
    const first = at === start && from ? Math.max(0, walk.traits.indexOf(from.trait)) : 0;
    const trait = walk.traits.slice(first).find((one) => !done(walk, plant, one, justDone));
    if (trait !== undefined) return { plant, trait };
  }
  return null;
}

const done = (
  walk: Walk,
  plant: string,
  trait: string,
  justDone: (Stop & { readonly wholePlant?: boolean }) | null,
): boolean =>
  (plant === justDone?.plant && (justDone.wholePlant === true || trait === justDone.trait)) ||
  walk.isDone(plant, trait);

/** The plant so many places further along the walk, at its first trait that is not done; null beyond either end. */
export function plantBeside(walk: Walk, at: string, by: number): Stop | null {
  const plant = walk.plants[walk.plants.indexOf(at) + by];
  return plant === undefined ? null : arriveAt(walk, plant);
}

/** Where one begins at a plant: at its first trait that is not done, else at the first. */
export const arriveAt = (walk: Walk, plant: string): Stop => ({
  plant,
  trait: walk.traits.find((trait) => !walk.isDone(plant, trait)) ?? walk.traits[0]!,
});

/** How far a walk is: plants of which every trait is done, of all. */
export const progress = (walk: Walk): { readonly done: number; readonly of: number } => ({
  done: walk.plants.filter((plant) => walk.traits.every((trait) => walk.isDone(plant, trait))).length,
  of: walk.plants.length,
});

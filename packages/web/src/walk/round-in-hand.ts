import type { HeldPlant, TraitShown } from '@keelrow/server/contract';
import type { HoldingsInHand } from '../phone/use-holdings.ts';
import { isAnswered, wasDead } from './order/answered.ts';
import { arriveAt, nextStop, type Walk } from './order/next-stop.ts';
import { walkingOrder } from './order/walking-order.ts';
import type { Round, Stop } from './rounds/round.ts';

/** A round with the garden laid under it: its plants in walking order and what of them is done. */
export interface RoundInHand {
  readonly walk: Walk;
  readonly plants: readonly HeldPlant[];
  readonly traits: readonly TraitShown[];
  /** Where one stands; null where every stop is done, or nothing grows there. */
  readonly stop: { readonly plant: HeldPlant; readonly trait: TraitShown } | null;
}

export function roundInHand(round: Round, garden: HoldingsInHand): RoundInHand {
  const traits = round.traits.flatMap((id) => garden.traits.find((trait) => trait.id === id) ?? []);
  const plants = round.beds.flatMap((bed) =>
    walkingOrder(
      garden
        .plantsInBed(bed)
        .filter(
          ({ id, goneOn }) =>
            (goneOn === null || goneOn > round.since) && !wasDead(round, garden.notesOn(id)),
        ),
      round.direction,
    ),
  );
  const byId = new Map(traits.map((trait) => [trait.id, trait]));
  const walk: Walk = {
    plants: plants.map(({ id }) => id),
    traits: traits.map(({ id }) => id),
    isDone: (plant, trait) => isAnswered(round, byId.get(trait)!, garden.notesOn(plant)),
  };
  return { walk, plants, traits, stop: traits.length === 0 ? null : stopOf(round, walk, byId, garden) };
}

function stopOf(
  round: Round,
  walk: Walk,
  traits: ReadonlyMap<string, TraitShown>,
  garden: HoldingsInHand,
): RoundInHand['stop'] {
  const at: Stop | null = round.at ?? (round.ended ? null : nextStop(walk, null));
  const plant = at && garden.plant(at.plant);
  if (!plant) return null;
  const trait = traits.get(at.trait) ?? traits.get(arriveAt(walk, at.plant).trait);
  return trait ? { plant, trait } : null;
}

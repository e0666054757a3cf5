import type { HeldPlant, TraitShown } from '@keelrow/server/contract';
import type { NoteInHand } from '../../phone/notes-in-hand.ts';
import type { HoldingsInHand } from '../../phone/use-holdings.ts';
import { type Compared, comparable } from './slip.ts';

/** The latest seen note of a trait in a year, or before it. */
export function latestSeen(
  notes: readonly NoteInHand[],
  trait: string,
  inYear: (year: number) => boolean,
): NoteInHand | null {
  return notes.reduce<NoteInHand | null>(
    (latest, note) =>
      note.trait === trait &&
      note.state === 'seen' &&
      note.value !== null &&
      inYear(Number(note.on.slice(0, 4))) &&
      (latest === null || note.on > latest.on || (note.on === latest.on && note.entered >= latest.entered))
        ? note
        : latest,
    null,
  );
}

/** What a new value of a plant is held against: its own earlier seasons, and the other plants of its bed. */
export function comparedWith(
  garden: HoldingsInHand,
  plant: HeldPlant,
  trait: TraitShown,
  today: string,
): Compared {
  const year = Number(today.slice(0, 4));
  const of = (id: string, inYear: (year: number) => boolean): { year: number; value: number } | null => {
    const note = latestSeen(garden.notesOn(id), trait.id, inYear);
    const value = note && comparable(trait, note.value);
    return note && value !== null ? { year: Number(note.on.slice(0, 4)), value } : null;
  };
  const others = (plant.bed === null ? [] : garden.plantsInBed(plant.bed)).filter(
    ({ id }) => id !== plant.id,
  );
  const pairs = others.map(({ id }) => [of(id, (one) => one < year), of(id, (one) => one === year)] as const);
  return {
    before: of(plant.id, (one) => one < year),
    bed: pairs.flatMap(([, now]) => (now ? [now.value] : [])),
    changes: pairs.flatMap(([before, now]) => (before && now ? [[before.value, now.value] as const] : [])),
  };
}

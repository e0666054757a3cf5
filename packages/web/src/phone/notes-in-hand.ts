import type { HeldNote, TraitShown } from '@keelrow/server/contract';
import type { KeptFact } from './facts.ts';
import type { PlantRow } from './phone-database.ts';

/** A standing note as the phone knows it: held, or entered here and on its way. */
export interface NoteInHand extends HeldNote {
  /** null: the server has it. */
  readonly onItsWay: 'waiting' | 'refused' | null;
  /** Order of entering on this phone; 0 for what was held. */
  readonly entered: number;
}

export interface LatestNotes {
  readonly thisSeason: NoteInHand | null;
  readonly lastSeason: NoteInHand | null;
}

/** Notes and withdrawals entered here that the holdings do not tell of yet, laid over them plant by plant. */
export class NotesEntered {
  readonly #byPlant = new Map<string, NoteInHand[]>();
  /** Notes that were corrected or taken back here. */
  readonly #struck = new Set<string>();

  /** facts: in order of entering. upTo: number of the last act that the holdings tell of. */
  constructor(
    facts: readonly KeptFact[],
    upTo: number,
    plants: ReadonlyMap<string, PlantRow>,
    traits: readonly TraitShown[],
    person: string,
  ) {
    const traitIds = new Map(traits.flatMap(({ id, code }) => [[id, id] as const, [code, id] as const]));
    for (const fact of facts) {
      if (fact.state === 'taken' && (fact.takenUpTo ?? 0) <= upTo) continue;
      if (fact.of !== undefined) this.#struck.add(fact.of);
      if (fact.kind !== 'notes' || !fact.row) continue;
      if (fact.replaces !== undefined && fact.state !== 'refused') this.#struck.add(fact.replaces);
      const { plant, trait } = fact.row;
      const traitId = traitIds.get(String(trait));
      if (typeof plant !== 'string' || traitId === undefined || !plants.has(plant)) continue;
      const there = this.#byPlant.get(plant) ?? [];
      there.push(asNote(fact, plant, traitId, person));
      this.#byPlant.set(plant, there);
    }
  }

  /** Standing notes on a plant, those held and those entered here. */
  on(plant: PlantRow): readonly NoteInHand[] {
    const held = plant.notes.map((note): NoteInHand => ({ ...note, onItsWay: null, entered: 0 }));
    const heldIds = new Set(held.map(({ id }) => id));
    const here = (this.#byPlant.get(plant.id) ?? []).filter(({ id }) => !heldIds.has(id));
    return [...held, ...here].filter(({ id }) => !this.#struck.has(id));
  }
}

function asNote(fact: KeptFact, plant: string, trait: string, person: string): NoteInHand {
  const { on, state, value, by, remark, photo } = fact.row!;
  return {
    id: fact.id,
    plant,
    trait,
    on: String(on),
    state: typeof state === 'string' ? state : 'seen',
    value: (value ?? null) as HeldNote['value'],
    by: typeof by === 'string' ? by : person,
    remark: typeof remark === 'string' ? remark : null,
    photo: typeof photo === 'string' ? photo : null,
    onItsWay: fact.state === 'taken' ? null : fact.state,
    entered: fact.order ?? 0,
  };
}

/** The latest note of a trait in the season (year) of a day, and the latest of any season before it. */
export function latestOf(notes: readonly NoteInHand[], trait: string, today: string): LatestNotes {
  const year = today.slice(0, 4);
  let thisSeason: NoteInHand | null = null;
  let lastSeason: NoteInHand | null = null;
  for (const note of notes) {
    if (note.trait !== trait) continue;
    const season = note.on.slice(0, 4);
    if (season === year) thisSeason = later(thisSeason, note);
    else if (season < year) lastSeason = later(lastSeason, note);
  }
  return { thisSeason, lastSeason };
}

const later = (one: NoteInHand | null, other: NoteInHand): NoteInHand =>
  !one || other.on > one.on || (other.on === one.on && other.entered >= one.entered) ? other : one;

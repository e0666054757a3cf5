import { dateOfDay, dayNumber, keptAs, measureOf, type NoteValue, type Units } from '@keelrow/breeding/facts';
import type { HeldPlant, TraitShown } from '@keelrow/server/contract';
import { dateInWords, minus } from '../parts/words.ts';
import type { NewFact } from '../phone/facts.ts';
import type { NoteInHand } from '../phone/notes-in-hand.ts';
import { writeInches } from './entries/measured-text.ts';

/** What is said of a trait: a value that was seen, or why there is none. */
export type Said =
  | { readonly state: 'seen'; readonly value: NoteValue | null }
  | { readonly state: 'not yet' | 'dead' | 'missing' | 'skipped'; readonly value: null };

/** What goes along with it. */
export interface Along {
  readonly remark?: string;
  /** Hash of a picture or memo. */
  readonly photo?: string;
  /** How the value came about, where ways differ. */
  readonly way?: string;
}

/** A number, day, class or colour as it is read aloud, with its unit. */
export function valueInWords(trait: TraitShown, value: NoteValue | null, units: Units): string {
  if (value === null) return '';
  if (typeof value === 'object') {
    const { l, a, b } = value;
    return [l, a, b].map((part) => minus(part.toFixed(0))).join(' ');
  }
  if (typeof value === 'string')
    return keptAs[trait.sort] === 'date' ? dateInWords(value).replace(/ \d{4}$/, '') : value;
  const { unit, toShown } = measureOf(trait.unit, units);
  const shown = toShown(value);
  const number = minus(unit === 'in' ? writeInches(shown) : String(Number(shown.toFixed(2))));
  return unit ? `${number} ${unit}` : number;
}

/** What a note says, in words: its value, its state, or that it is a picture or memo. */
export function noteInWords(
  trait: TraitShown,
  note: Pick<NoteInHand, 'state' | 'value' | 'photo'>,
  units: Units,
): string {
  if (note.state !== 'seen') return note.state;
  return valueInWords(trait, note.value, units) || (trait.sort === 'spoken' ? 'a memo' : 'a picture');
}

/**
 * The note of this person that a new one corrects: of the same trait and day; for a stage of the same year, since it
 * is reached once. Notes of others and of other days stand beside it.
 */
export function noteToCorrect(
  notes: readonly NoteInHand[],
  trait: TraitShown,
  on: string,
  person: string,
): NoteInHand | null {
  const own = notes.filter((note) => note.trait === trait.id && note.by === person);
  const sameDay = own.filter((note) => note.on === on);
  const stage = own.filter(
    (note) => trait.sort === 'staged' && note.state === 'seen' && note.on.slice(0, 4) === on.slice(0, 4),
  );
  return [...stage, ...sameDay].reduce<NoteInHand | null>(
    (latest, note) => (latest && latest.entered > note.entered ? latest : note),
    null,
  );
}

/** A note as the phone enters it; what it corrects gives its remark and picture on. */
export function noteFact(
  plant: HeldPlant,
  trait: TraitShown,
  on: string,
  said: Said,
  along: Along,
  corrects: NoteInHand | null,
  units: Units,
): NewFact {
  const remark = along.remark ?? corrects?.remark ?? null;
  const photo = along.photo ?? corrects?.photo ?? null;
  const words = noteInWords(trait, { ...said, photo }, units);
  return {
    kind: 'notes',
    row: {
      plant: plant.id,
      trait: trait.id,
      on,
      ...(said.state === 'seen' ? {} : { state: said.state }),
      ...(said.value === null ? {} : { value: said.value }),
      ...(remark === null ? {} : { remark }),
      ...(photo === null ? {} : { photo }),
      ...(along.way === undefined ? {} : { taken_by_way_of: along.way }),
    },
    ...(corrects === null ? {} : { replaces: corrects.id }),
    words: `${plant.code} ${trait.name}: ${words}`,
  };
}

/** What a note said, to be said once more with something added; skipped where nothing was said yet. */
export const saidBy = (note: NoteInHand | null): Said =>
  note === null
    ? { state: 'skipped', value: null }
    : note.state === 'seen'
      ? { state: 'seen', value: note.value }
      : { state: note.state as Exclude<Said['state'], 'seen'>, value: null };

export const dayBefore = (day: string): string => dateOfDay(dayNumber(day) - 1);

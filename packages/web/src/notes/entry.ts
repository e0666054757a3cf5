import { isDate, keptAs, type NoteValue, readLab, valueProblem, writeLab } from '@keelrow/breeding/facts';
import type { NoteCell, TraitShown } from '@keelrow/server/contract';
import { measureOf, type Units } from '../parts/measure.ts';
import { dateInWords, minus } from '../parts/words.ts';
import { readNumber } from '../records/read-field.ts';
import { readDay } from './read-day.ts';

export const statesByKey = { n: 'not yet', d: 'dead', m: 'missing' } as const;
const states: readonly string[] = [...Object.values(statesByKey), 'skipped'];

/** What a box of the grid holds: a value that was seen, or why there is none. */
export type Entry =
  | { readonly state: 'seen'; readonly value: NoteValue }
  | { readonly state: string; readonly value: null };

export interface Setting {
  /** The day on which the notes are taken. */
  readonly on: string;
  readonly today: string;
  readonly units: Units;
}

/** In columns of numbers, days and colours a letter alone is a state; where letters are values it is not. */
export const lettersAreStates = ({ sort }: TraitShown): boolean =>
  ['number', 'date', 'colour'].includes(keptAs[sort]);

/** Reads what was typed into a box; null for an empty one. Whatever is wrong is told, and the typed text stays. */
export function readEntry(
  trait: TraitShown,
  typed: string,
  setting: Setting,
): Entry | { problem: string } | null {
  const text = typed.trim();
  if (text === '') return null;
  const state = stateNamed(trait, text.toLowerCase());
  if (state) return { state, value: null };
  const { value, problem } = readValue(trait, text, setting);
  if (problem !== undefined) return { problem };
  return { state: 'seen', value };
}

function stateNamed(trait: TraitShown, text: string): string | undefined {
  if (trait.classes.some((word) => word.toLowerCase() === text)) return undefined;
  if (lettersAreStates(trait) && Object.hasOwn(statesByKey, text))
    return statesByKey[text as 'n' | 'd' | 'm'];
  return states.find((state) => state === text);
}

type Read = { value: NoteValue; problem?: undefined } | { value?: undefined; problem: string };

function readValue(trait: TraitShown, text: string, { on, today, units }: Setting): Read {
  switch (keptAs[trait.sort]) {
    case 'number': {
      const measure = measureOf(trait.unit, units);
      const number = readNumber(text);
      const inShown = (limit: number | null): number | null =>
        limit === null ? null : measure.toShown(limit);
      const rule = { ...trait, unit: measure.unit, least: inShown(trait.least), most: inShown(trait.most) };
      const problem = valueProblem(rule, number ?? text);
      return problem === null && number !== null
        ? { value: measure.toStored(number) }
        : { problem: problem ?? '' };
    }
    case 'date': {
      const day = readDay(text, on);
      if (day === null) return { problem: `“${text}” is not a day; write 14, 14 May, 5-14 or 2031-05-14` };
      if (day > today) return { problem: `${dateInWords(day)} lies ahead; today is ${dateInWords(today)}` };
      return { value: day };
    }
    case 'class': {
      const word = classNamed(trait.classes, text);
      return word ? { value: word } : { problem: valueProblem(trait, text) ?? '' };
    }
    case 'colour': {
      const lab = readLab(text);
      return lab ? { value: lab } : { problem: `“${text}” is not a colour; write L a b, such as 45 5 -22` };
    }
    case 'text':
      return { value: text };
  }
}

/** A class by its name, by its number in the list, or by a beginning that only it has. */
function classNamed(classes: readonly string[], text: string): string | undefined {
  const lower = text.toLowerCase();
  const exact = classes.find((word) => word.toLowerCase() === lower);
  if (exact) return exact;
  if (/^\d+$/.test(text)) return classes[Number(text) - 1];
  const beginning = classes.filter((word) => word.toLowerCase().startsWith(lower));
  return beginning.length === 1 ? beginning[0] : undefined;
}

/** A note as it stands in its box. */
export function showEntry(trait: TraitShown, entry: Pick<NoteCell, 'state' | 'value'>, units: Units): string {
  if (entry.state !== 'seen') return entry.state;
  const { value } = entry;
  if (value === null) return '';
  if (typeof value === 'number') return minus(String(measureOf(trait.unit, units).toShown(value)));
  if (typeof value === 'object') return writeLab(value);
  return keptAs[trait.sort] === 'date' && isDate(value) ? dateInWords(value).slice(0, -5) : value;
}

/** The value of an earlier year as the server writes it, metric, in the form of this grid: without its unit. */
export function showBefore(trait: TraitShown, shown: string, units: Units): string {
  if (isDate(shown)) return dateInWords(shown).slice(0, -5);
  const number = keptAs[trait.sort] === 'number' ? Number.parseFloat(shown.replace('−', '-')) : Number.NaN;
  if (Number.isNaN(number)) return shown;
  return minus(String(Number(measureOf(trait.unit, units).toShown(number).toFixed(2))));
}

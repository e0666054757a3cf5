import { type AnyRow, dateOfDay, dayNumber, dayOfYear, keptAs, readLab } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import { readDay } from '../notes/read-day.ts';
import { measureOf, type Units } from '../parts/measure.ts';
import { dayInWords, plainNumber } from '../parts/words.ts';
import { readNumber } from '../records/read-field.ts';
import type { Limit } from './limits.ts';

/** What stands in the boxes of the form for a limit. */
export interface LimitTyped {
  readonly trait: string;
  readonly must: boolean;
  readonly weight: string;
  readonly atLeast: string;
  readonly atMost: string;
  readonly classes: readonly string[];
  readonly colour: string;
  readonly colourWithin: string;
  readonly fromWeek: string;
  readonly toWeek: string;
}
export type LimitBox = Exclude<keyof LimitTyped, 'must'>;
export interface LimitProblem {
  readonly box: LimitBox;
  readonly problem: string;
}

export const emptyLimit: LimitTyped = {
  trait: '',
  must: true,
  weight: '1',
  atLeast: '',
  atMost: '',
  classes: [],
  colour: '',
  colourWithin: '8',
  fromWeek: '',
  toWeek: '',
};

const isDay = ({ sort }: TraitShown): boolean => keptAs[sort] === 'date';
const measure = (trait: TraitShown, units: Units) => measureOf(isDay(trait) ? null : trait.unit, units);

/** A stored limit as it is typed, in the units of the programme. */
export function typedOf(limit: Limit, trait: TraitShown, units: Units): LimitTyped {
  const shown = (value: number | null): string => {
    if (value === null) return '';
    return isDay(trait) ? dayInWords(value) : plainNumber(measure(trait, units).toShown(value));
  };
  const plain = (value: number | null): string => (value === null ? '' : String(value));
  return {
    trait: limit.trait,
    must: limit.must,
    weight: plain(limit.weight ?? 1),
    atLeast: shown(limit.atLeast),
    atMost: shown(limit.atMost),
    classes: limit.classes,
    colour: limit.colour ? `${limit.colour.l} ${limit.colour.a} ${limit.colour.b}` : '',
    colourWithin: plain(limit.colourWithin ?? 8),
    fromWeek: plain(limit.fromWeek),
    toWeek: plain(limit.toWeek),
  };
}

/** The record that was typed, and all that is wrong with it by its box. Boxes that do not suit the trait are emptied. */
export function readLimit(
  typed: LimitTyped,
  trait: TraitShown | undefined,
  units: Units,
): { readonly row: AnyRow; readonly problems: readonly LimitProblem[] } {
  if (!trait) return { row: {}, problems: [{ box: 'trait', problem: 'choose the trait that is limited' }] };
  const problems: LimitProblem[] = [];
  const row = {
    trait: trait.code,
    must: typed.must,
    weight: typed.must ? null : readWeight(typed.weight, problems),
    ...nothingAsked,
    ...asked(typed, trait, units, problems),
  };
  return { row, problems };
}

const nothingAsked = {
  at_least: null,
  at_most: null,
  classes: null,
  colour: null,
  colour_within: null,
  from_week: null,
  to_week: null,
};

function readWeight(text: string, problems: LimitProblem[]): number | null {
  const weight = readNumber(text);
  if (weight === null || weight <= 0)
    problems.push({ box: 'weight', problem: 'a weight is a number above 0' });
  return weight;
}

function asked(typed: LimitTyped, trait: TraitShown, units: Units, problems: LimitProblem[]): AnyRow {
  switch (keptAs[trait.sort]) {
    case 'class':
      if (typed.classes.length === 0) problems.push({ box: 'classes', problem: 'tick at least one class' });
      return { classes: trait.classes.filter((one) => typed.classes.includes(one)) };
    case 'colour': {
      const colour = readLab(typed.colour.trim());
      const within = readNumber(typed.colourWithin);
      if (!colour)
        problems.push({ box: 'colour', problem: 'choose a colour, or write L a b, such as 45 5 -22' });
      if (within === null || within <= 0)
        problems.push({ box: 'colourWithin', problem: 'say how far from it is still right, above 0' });
      return { colour, colour_within: within };
    }
    default:
      return numbersAsked(typed, trait, units, problems);
  }
}

function numbersAsked(typed: LimitTyped, trait: TraitShown, units: Units, problems: LimitProblem[]): AnyRow {
  const end = (box: 'atLeast' | 'atMost'): number | null => {
    const text = typed[box].trim();
    if (text === '') return null;
    const value = isDay(trait) ? readDayOfYear(text) : readNumber(text);
    if (value === null)
      problems.push({
        box,
        problem: isDay(trait) ? `“${text}” is no day; write 20 May` : `“${text}” is not a number`,
      });
    return value === null || isDay(trait) ? value : measure(trait, units).toStored(value);
  };
  const week = (box: 'fromWeek' | 'toWeek'): number | null => {
    const text = typed[box].trim();
    if (!isDay(trait) || text === '') return null;
    const value = readNumber(text);
    if (value === null || !Number.isInteger(value) || value < 1 || value > 53) {
      problems.push({ box, problem: `“${text}” is no week of the year; they run from 1 to 53` });
    }
    return value;
  };
  const row = {
    at_least: end('atLeast'),
    at_most: end('atMost'),
    from_week: week('fromWeek'),
    to_week: week('toWeek'),
  };
  if (problems.length === 0 && Object.values(row).every((value) => value === null))
    problems.push({
      box: isDay(trait) ? 'fromWeek' : 'atLeast',
      problem: isDay(trait) ? 'say at least one end, in weeks or as days' : 'say at least one end',
    });
  if (row.at_least !== null && row.at_most !== null && row.at_least > row.at_most)
    problems.push({ box: 'atMost', problem: 'no plant can meet it: the two ends are exchanged' });
  if (row.from_week !== null && row.to_week !== null && row.from_week > row.to_week)
    problems.push({ box: 'toWeek', problem: 'the weeks end before they begin' });
  return row;
}

/** A day as it is typed, `20 May` or `5-20`, in a year without a leap day; null if it is none. */
function readDayOfYear(text: string): number | null {
  // While notes are taken `14` and `today` are days too; here they would say nothing.
  if (!/\d/.test(text) || /^\d+$/.test(text)) return null;
  const day = readDay(text, dateOfDay(dayNumber('2001-12-31')));
  return day === null ? null : dayOfYear(day);
}

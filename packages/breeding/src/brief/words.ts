import {
  dateOfDay,
  dayNumber,
  inWords,
  keptAs,
  measureOf,
  type TraitRule,
  type Units,
} from '../facts/index.ts';
import type { BriefLimit, BriefTrait } from './brief.ts';
import { firstDayOfWeek, lastDayOfWeek } from './weeks.ts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A day of a year without a leap day as people say it: 160 is 9 Jun. */
export function dayInWords(day: number): string {
  const date = dateOfDay(dayNumber('2001-01-01') + Math.round(day) - 1);
  return `${Number(date.slice(8))} ${months[Number(date.slice(5, 7)) - 1]}`;
}

/** A number with as many decimals as a range of this width deserves. */
function numberInWords(value: number, width: number): string {
  const decimals = width >= 5 ? 0 : width >= 0.5 ? 1 : 2;
  const text = value.toFixed(decimals);
  return (Number(text) === 0 ? (0).toFixed(decimals) : text).replace('-', '−');
}

/** About 84 cm (70 to 99). */
export function rangeInWords(
  trait: BriefTrait,
  units: Units,
  estimate: number,
  low: number,
  high: number,
): string {
  if (keptAs[trait.sort] === 'date')
    return `about ${dayInWords(estimate)} (${dayInWords(low)} to ${dayInWords(high)})`;
  const { unit, toShown, spanToShown } = measureOf(trait.unit ?? null, units);
  const say = (value: number) => numberInWords(toShown(value), spanToShown(high - low));
  return `about ${say(estimate)}${unit ? ` ${unit}` : ''} (${say(low)} to ${say(high)})`;
}

/** An end of a limit: “100 cm”, converted ones to a hundredth; days of the year as dates. */
export function limitInWords(value: number, trait: TraitRule, units: Units): string {
  if (keptAs[trait.sort] === 'date') return dayInWords(value);
  return inWords(value, measureOf(trait.unit ?? null, units));
}

/** What a limit asks, without the trait's name: “at least 100 cm”. */
export function wantedInWords(limit: BriefLimit, trait: BriefTrait, units: Units): string {
  const say = (value: number) => limitInWords(value, trait, units);
  const { atLeast, atMost, classes, colour, colourWithin, fromWeek, toWeek } = limit;
  const words: string[] = [];
  const date = keptAs[trait.sort] === 'date';
  if (atLeast !== null && atMost !== null) words.push(`${say(atLeast)} to ${say(atMost)}`);
  else if (atLeast !== null) words.push(`${date ? 'not before' : 'at least'} ${say(atLeast)}`);
  else if (atMost !== null) words.push(`${date ? 'not after' : 'at most'} ${say(atMost)}`);
  if (fromWeek !== null || toWeek !== null) words.push(weeksInWords(fromWeek, toWeek));
  if (classes !== null && classes.length > 0) words.push(classes.join(' or '));
  if (colour !== null) {
    const { l, a, b } = colour;
    words.push(`within ${colourWithin} of the colour L ${[l, a, b].join(' ').replaceAll('-', '−')}`);
  }
  return words.join(', ');
}

function weeksInWords(from: number | null, to: number | null): string {
  if (from === null) return `up to week ${to} (${dayInWords(lastDayOfWeek(to!))})`;
  if (to === null) return `from week ${from} (${dayInWords(firstDayOfWeek(from))})`;
  return `in ${from === to ? `week ${from}` : `weeks ${from} to ${to}`} (${dayInWords(firstDayOfWeek(from))} to ${dayInWords(lastDayOfWeek(to))})`;
}

/** What is amiss with a value on the wrong side of its limits, by the sort of its trait. */
export function amissInWords(trait: BriefTrait, side: 'below' | 'above'): string {
  if (keptAs[trait.sort] === 'date') return side === 'below' ? 'too early' : 'too late';
  if (trait.sort === 'counted') return side === 'below' ? 'too few' : 'too many';
  if (trait.sort === 'scored') return side === 'below' ? 'too low' : 'too high';
  return side === 'below' ? 'too small' : 'too large';
}

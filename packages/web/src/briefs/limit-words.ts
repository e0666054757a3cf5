import { keptAs } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import { measureOf, type Units } from '../parts/measure.ts';
import { dayInWords, plainNumber } from '../parts/words.ts';
import type { Limit } from './limits.ts';

/** What a limit asks, in the units of the programme: `at least 100 cm`, `in flower in weeks 22 to 27`. */
export function limitInWords(limit: Limit, trait: TraitShown, units: Units): string {
  const { atLeast, atMost, classes, colour, colourWithin } = limit;
  const isDay = keptAs[trait.sort] === 'date';
  const measure = measureOf(isDay ? null : trait.unit, units);
  const unit = measure.unit ? ` ${measure.unit}` : '';
  const shown = (value: number): string => (isDay ? dayInWords(value) : plainNumber(measure.toShown(value)));
  const words: string[] = [];
  if (atLeast !== null && atMost !== null)
    words.push(`between ${shown(atLeast)} and ${shown(atMost)}${unit}`);
  else if (atLeast !== null) words.push(`${isDay ? 'not before' : 'at least'} ${shown(atLeast)}${unit}`);
  else if (atMost !== null) words.push(`${isDay ? 'not after' : 'at most'} ${shown(atMost)}${unit}`);
  const weeks = weeksInWords(limit);
  if (weeks) words.push(weeks);
  if (classes.length > 0) words.push(classes.join(' or '));
  if (colour) words.push(`within ${plainNumber(colourWithin ?? 0)} of this colour`);
  return words.join(', ') || 'nothing said yet';
}

/**
 * Weeks of the year with their days in an average year, week 1 beginning on 1 January: by ISO 8601 its Monday lies from
 * 29 December to 4 January.
 */
export function weeksInWords({ fromWeek, toWeek }: Pick<Limit, 'fromWeek' | 'toWeek'>): string {
  const first = (week: number): string => dayInWords(7 * (week - 1) + 1);
  const last = (week: number): string => dayInWords(7 * week);
  if (fromWeek !== null && toWeek !== null)
    return fromWeek === toWeek
      ? `in week ${fromWeek} (${first(fromWeek)} to ${last(toWeek)})`
      : `in weeks ${fromWeek} to ${toWeek} (${first(fromWeek)} to ${last(toWeek)})`;
  if (fromWeek !== null) return `from week ${fromWeek} on (${first(fromWeek)})`;
  return toWeek === null ? '' : `up to week ${toWeek} (${last(toWeek)})`;
}

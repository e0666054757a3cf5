import { keptAs } from '@keelrow/breeding/facts';
import type { EstimatesReport } from '@keelrow/server/contract';
import { measureOf, type Units } from '../parts/measure.ts';
import { asPreciseAs, dayInWords, plainNumber } from '../parts/words.ts';

/** How estimates of a trait are written: days of the year as days, lengths in the programme's units. */
export interface TraitWriting {
  readonly unit: string | null;
  readonly isDay: boolean;
  toShown(value: number): number;
  span(value: number): number;
  /** A value with no more digits than its standard error allows. */
  value(value: number, se: number): string;
  /** A difference or range, with its unit. */
  difference(value: number, se: number): string;
  /** Half the range that holds the truth with a chance of 80%, without its unit. */
  halfRange(ends: { readonly low: number; readonly high: number }, usualSe: number): string;
  tick(value: number): string;
  /** A distance from the average, with its sign and no unit. */
  apart(value: number, se: number): string;
  /** A range from its two ends, with no more digits than the standard error allows. */
  range(low: number, high: number, se: number): string;
}

export function traitWriting(
  trait: Pick<EstimatesReport['trait'], 'sort' | 'unit'>,
  units: Units,
): TraitWriting {
  const isDay = keptAs[trait.sort] === 'date';
  const measure = measureOf(isDay ? null : trait.unit, units);
  const unit = isDay ? 'days' : measure.unit;
  const span = measure.spanToShown;
  return {
    unit,
    isDay,
    toShown: measure.toShown,
    span,
    value: (value, se) => (isDay ? dayInWords(value) : asPreciseAs(measure.toShown(value), span(se))),
    difference: (value, se) => `${asPreciseAs(span(value), span(se))}${unit ? ` ${unit}` : ''}`,
    halfRange: ({ low, high }, usualSe) => asPreciseAs(span((high - low) / 2), span(usualSe)),
    tick: (value) => (isDay ? dayInWords(value) : plainNumber(value)),
    apart: (value, se) => signed(asPreciseAs(span(value), span(se))),
    range: (low, high, se) =>
      isDay
        ? `${dayInWords(low)} to ${dayInWords(high)}`
        : `${asPreciseAs(measure.toShown(low), span(se))} to ${asPreciseAs(measure.toShown(high), span(se))}`,
  };
}

/** A plus before what is not below nought. */
const signed = (number: string): string => (number.startsWith('−') ? number : `+${number}`);

import { dayOfYear, inWords, keptAs, type Measure } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import { dayInWords } from '../../parts/words.ts';
import { farOff, median, modifiedZ } from './robust-distance.ts';

/** What a value is held against: numbers as stored, days as days of the year. */
export interface Compared {
  /** The plant's latest note of the trait from an earlier season. */
  readonly before: { readonly year: number; readonly value: number } | null;
  /** This season's notes of the trait on the other plants of the bed. */
  readonly bed: readonly number[];
  /** Other plants of the bed that were noted this season and before: [before, now]. */
  readonly changes: readonly (readonly [before: number, now: number])[];
}

/** Fewer others than this tell no spread. Common practice, no source. */
const enough = 8;
/** A change by this factor is asked about where the bed tells nothing of usual changes. Common practice, no source. */
const largeFactor = 3;
/** No smaller change is asked about, however alike the others changed. Common practice, no source. */
const smallFactor = 1.5;
/** A stage so many days from its day of an earlier year is asked about. Common practice, no source. */
const farDays = 42;
/** Days from the middle of the bed that are not asked about, however alike the others are. Common practice, no source. */
const nearDays = 21;

/**
 * The question to ask about a number or day that is far from what this plant or its bed was noted as; null where
 * nothing is odd. A number is held against the bed on its own scale and on a second one that evens out the skew of
 * growth (logarithm; root for counts): only what is far off on both is asked about.
 */
export function slipQuestion(
  trait: TraitShown,
  value: number,
  compared: Compared,
  measure: Measure,
): string | null {
  if (trait.sort === 'scored') return null;
  if (keptAs[trait.sort] === 'date') return dayQuestion(value, compared);
  return keptAs[trait.sort] === 'number' ? numberQuestion(trait, value, compared, measure) : null;
}

function numberQuestion(
  trait: TraitShown,
  value: number,
  { before, bed, changes }: Compared,
  measure: Measure,
): string | null {
  const shown = inWords(value, measure);
  if (before && changedOddly(trait, before.value, value, changes)) {
    return `${shown}? In ${before.year} this plant had ${inWords(before.value, measure)}${howMuch(before.value, value)}.`;
  }
  if (bed.length < enough) return null;
  const even = evened(trait, [value, ...bed]);
  if (Math.abs(modifiedZ(value, bed)) <= farOff) return null;
  if (even && Math.abs(modifiedZ(even[0]!, even.slice(1))) <= farOff) return null;
  const middle = median(bed);
  const spread = median(bed.map((other) => Math.abs(other - middle)));
  const off = (number: number): string => inWords(Number(Math.abs(number).toPrecision(3)), asSpan(measure));
  return `${shown}? The middle of ${bed.length} others in this bed is ${inWords(middle, measure)}, and half of them lie within ${off(spread)} of it; this is ${off(value - middle)} off.`;
}

const asSpan = (measure: Measure): Measure => ({
  ...measure,
  toShown: (stored) => Number(measure.spanToShown(stored).toPrecision(3)),
});

/** Values on a scale on which growth is not skewed; null where one of them has no place there. */
function evened({ sort }: TraitShown, values: readonly number[]): number[] | null {
  if (sort === 'counted') return values.map(Math.sqrt);
  return values.every((value) => value > 0) ? values.map(Math.log) : null;
}

function changedOddly(trait: TraitShown, before: number, now: number, changes: Compared['changes']): boolean {
  const floor = floorOf(trait, before, now);
  const change = (a: number, b: number): number => Math.log((b + floor) / (a + floor));
  const own = change(before, now);
  if (!Number.isFinite(own)) return false;
  if (changes.length < enough) return Math.abs(own) >= Math.log(largeFactor);
  const usual = changes.map(([a, b]) => change(a, b)).filter(Number.isFinite);
  const beyondUsual = Math.abs(own - median(usual)) >= Math.log(smallFactor);
  return beyondUsual && Math.abs(modifiedZ(own, usual)) > farOff;
}

/** Added to both sides of a ratio, so that changes among small numbers do not count for much. */
function floorOf({ sort, least, most }: TraitShown, before: number, now: number): number {
  if (least !== null && most !== null) return (most - least) / 20 - Math.min(0, least);
  return sort === 'counted' ? 5 : Math.max(Math.abs(before), Math.abs(now)) / 20;
}

function howMuch(before: number, now: number): string {
  const ratio = before > 0 && now > 0 ? now / before : 1;
  if (ratio >= 1.5) return `; this is ${Number(ratio.toPrecision(2))} times as much`;
  return ratio <= 1 / 1.5 ? `; that was ${Number((1 / ratio).toPrecision(2))} times as much` : '';
}

function dayQuestion(day: number, { before, bed }: Compared): string | null {
  const shown = dayInWords(day);
  if (before && Math.abs(day - before.value) > farDays) {
    const off = Math.abs(day - before.value);
    return `${shown}? In ${before.year} it was ${dayInWords(before.value, before.year)}, ${off} days ${day > before.value ? 'earlier' : 'later'}.`;
  }
  if (bed.length < enough) return null;
  const middle = median(bed);
  if (Math.abs(day - middle) <= nearDays || Math.abs(modifiedZ(day, bed)) <= farOff) return null;
  return `${shown}? The middle of ${bed.length} others in this bed is ${dayInWords(middle)}; this is ${Math.round(Math.abs(day - middle))} days ${day > middle ? 'later' : 'earlier'}.`;
}

/** A note's value as it is compared: the number, or the day of the year of a date; null for anything else. */
export function comparable(trait: Pick<TraitShown, 'sort'>, value: unknown): number | null {
  if (keptAs[trait.sort] === 'date') return typeof value === 'string' ? dayOfYear(value) : null;
  return keptAs[trait.sort] === 'number' && typeof value === 'number' ? value : null;
}

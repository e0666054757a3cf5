import { dateOfDay, dayNumber, isDate } from '@keelrow/breeding/facts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `2031-05-20` as `20 May 2031`; anything that is no date stays as it is. */
export function dateInWords(date: string): string {
  if (!isDate(date)) return date;
  return `${Number(date.slice(8))} ${months[Number(date.slice(5, 7)) - 1]} ${date.slice(0, 4)}`;
}

/** A day of the year (1 January = 1) as `20 May`; fractions are rounded. The year decides about 29 February. */
export function dayInWords(dayOfYear: number, year = 2001): string {
  const date = dateOfDay(dayNumber(`${year}-01-01`) + Math.round(dayOfYear) - 1);
  return `${Number(date.slice(8))} ${months[Number(date.slice(5, 7)) - 1]}`;
}

/** `1 note`, `2 notes`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count.toLocaleString('en-US')} ${count === 1 ? one : many}`;

/** First letter large. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A number with no more digits than its doubt allows: two figures of the standard error. */
export function asPreciseAs(number: number, doubt: number): string {
  const places = doubt > 0 ? Math.min(4, Math.max(0, 1 - Math.floor(Math.log10(doubt)))) : 1;
  return minus(number.toFixed(places));
}

/** A hyphen before a number as a proper minus; no minus before zero. */
export const minus = (text: string): string =>
  /^-0(\.0*)?$/.test(text) ? text.slice(1) : text.replace(/^-/, '−');

/** A measured number as people write it: at most two decimals, none that say nothing. */
export const plainNumber = (number: number): string => minus(String(Number(number.toFixed(2))));

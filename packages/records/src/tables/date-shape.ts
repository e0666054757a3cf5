import { calendarDate, fullYear } from './calendar-date.ts';
import { monthByName } from './month-names.ts';

export type DateOrder = 'ymd' | 'dmy' | 'mdy';

/** What a text may mean as a date: one meaning whatever the order, or one for each order that gives a day. */
export type DateShape =
  | { readonly kind: 'certain'; readonly date: string }
  | { readonly kind: 'by-order'; readonly dates: ReadonlyMap<DateOrder, string> }
  | { readonly kind: 'impossible' }
  | { readonly kind: 'partial' }
  | { readonly kind: 'zoned' }
  | { readonly kind: 'none' };

const weekday =
  /^(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|satur|sat|sun)(?:day)?|(?:mo|di|mi|do|fr|sa|so)|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|sonnabend|(?:lun|mar|mercre|jeu|vendre|same)di|dimanche)\.?,?\s+/iu;

/** A longer text is a remark. */
const longestDate = 100;

/** Takes a text for a date in every way that it allows. */
export function dateShape(text: string): DateShape {
  if (text.length > longestDate) return { kind: 'none' };
  const plain = text.trim().replace(/\s+/g, ' ').replace(weekday, '');
  return withTime(plain) ?? numeric(plain) ?? named(plain) ?? partial(plain) ?? { kind: 'none' };
}

function certain(year: number, month: number, day: number): DateShape {
  const date = calendarDate(year, month, day);
  return date ? { kind: 'certain', date } : { kind: 'impossible' };
}

/** A date with a time of day. The date counts as written; a time in another zone may fall on the day before or after. */
function withTime(text: string): DateShape | undefined {
  const match =
    /^(.*\d)(?:T| |, )(\d{1,2}:\d\d(?::\d\d(?:[.,]\d+)?)?)(?: ?[ap]\.?m\.?)?( ?Z| ?[+-]\d\d:?\d\d)?$/i.exec(
      text,
    );
  if (!match) return undefined;
  const atMidnight = /^0?0:00(:00([.,]0+)?)?$/.test(match[2]!);
  return match[3] && !atMidnight
    ? { kind: 'zoned' }
    : (numeric(match[1]!) ?? named(match[1]!) ?? { kind: 'none' });
}

function numeric(text: string): DateShape | undefined {
  const compact = /^(\d{4})(\d\d)(\d\d)$/.exec(text);
  if (compact) return certain(Number(compact[1]), Number(compact[2]), Number(compact[3]));
  const yearFirst = /^(\d{4})\s?([./-])\s?(\d{1,2})\s?\2\s?(\d{1,2})\.?$/.exec(text);
  if (yearFirst) return certain(Number(yearFirst[1]), Number(yearFirst[3]), Number(yearFirst[4]));
  const parts = /^(\d{1,2})\s?([./-])\s?(\d{1,2})\s?\2\s?(\d{4}|\d\d)$/.exec(text);
  return parts ? byOrder(parts[1]!, parts[2]!, parts[3]!, parts[4]!) : undefined;
}

/** A year of two digits is taken to stand first only in the manner of ISO dates, with hyphens: 27-04-13. */
function byOrder(first: string, mark: string, second: string, third: string): DateShape {
  const dates = new Map<DateOrder, string>();
  const put = (order: DateOrder, date: string | undefined) => date && dates.set(order, date);
  const year = fullYear(third);
  put('dmy', calendarDate(year, Number(second), Number(first)));
  put('mdy', calendarDate(year, Number(first), Number(second)));
  if (mark === '-' && first.length === 2 && third.length === 2) {
    put('ymd', calendarDate(fullYear(first), Number(second), Number(third)));
  }
  return dates.size === 0 ? { kind: 'impossible' } : { kind: 'by-order', dates };
}

function named(text: string): DateShape | undefined {
  const dayFirst =
    /^(?:le )?(\d{1,2})(?:st|nd|rd|th|er|e)?[. /-]{0,2}(?:of )?(\p{L}{3,}\.?),?[ ./-]{0,2}(\d{4}|['’]?\d\d)$/iu.exec(
      text,
    );
  if (dayFirst) return inNamedMonth(dayFirst[3]!, dayFirst[2]!, dayFirst[1]!);
  const monthFirst = /^(\p{L}{3,}\.?)[ /-]?(\d{1,2})(?:st|nd|rd|th)?(?:, ?| |[/-])(\d{4}|['’]?\d\d)$/iu.exec(
    text,
  );
  if (monthFirst) return inNamedMonth(monthFirst[3]!, monthFirst[1]!, monthFirst[2]!);
  const yearFirst = /^(\d{4})[ /-]?(\p{L}{3,}\.?)[ /-]?(\d{1,2})$/u.exec(text);
  return yearFirst ? inNamedMonth(yearFirst[1]!, yearFirst[2]!, yearFirst[3]!) : undefined;
}

function inNamedMonth(year: string, name: string, day: string): DateShape | undefined {
  const month = monthByName(name);
  return month === undefined ? undefined : certain(fullYear(year.replace(/^['’]/, '')), month, Number(day));
}

/** A year, or a month of a year, or a day without its year. */
function partial(text: string): DateShape | undefined {
  if (
    /^(1[89]|20|21)\d\d$/.test(text) ||
    /^\d{4}[./-]\d{1,2}$/.test(text) ||
    /^\d{1,2}[./-]\d{4}$/.test(text)
  ) {
    return { kind: 'partial' };
  }
  if (/^\d{1,2}[./-]\d{1,2}\.?$/.test(text)) return { kind: 'partial' };
  const words = /^(?:\d{1,2}[. ]{1,2})?(\p{L}{3,}\.?)(?:[ ,-]+\d{1,4}\.?)?$/u.exec(text);
  return words && monthByName(words[1]!) !== undefined ? { kind: 'partial' } : undefined;
}

/** Calendar dates are text `YYYY-MM-DD` in the garden's own time zone, everywhere; never JavaScript Dates. */

const shape = /^(\d{4})-(\d{2})-(\d{2})$/;
const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

export const isLeapYear = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/** Whether the text is a date of the Gregorian calendar, years 1600 to 2399. */
export function isDate(text: string): boolean {
  const parts = shape.exec(text);
  if (!parts) return false;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  if (year < 1600 || year > 2399 || month < 1 || month > 12 || day < 1) return false;
  return day <= (month === 2 && isLeapYear(year) ? 29 : monthLengths[month - 1]!);
}

export const yearOf = (date: string): number => Number(date.slice(0, 4));

/** Days since 1970-01-01, by the civil calendar (proleptic Gregorian; H. Hinnant, “days_from_civil”). */
export function dayNumber(date: string): number {
  const [y, m, d] = [yearOf(date), Number(date.slice(5, 7)), Number(date.slice(8, 10))];
  const year = m <= 2 ? y - 1 : y;
  const era = Math.floor(year / 400);
  const yearOfEra = year - era * 400;
  const dayOfYearFromMarch = Math.floor((153 * (m + (m > 2 ? -3 : 9)) + 2) / 5) + d - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYearFromMarch;
  return era * 146097 + dayOfEra - 719468;
}

/** The date of a day number; the reverse of dayNumber. */
export function dateOfDay(day: number): string {
  const shifted = day + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const dayOfMonth = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(dayOfMonth).padStart(2, '0')}`;
}

/** Day of the year, 1 January = 1. */
export const dayOfYear = (date: string): number =>
  dayNumber(date) - dayNumber(`${date.slice(0, 4)}-01-01`) + 1;

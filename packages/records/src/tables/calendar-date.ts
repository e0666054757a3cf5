const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** `YYYY-MM-DD` in the Gregorian calendar; undefined where there is no such day. Years 1000 to 9999. */
export function calendarDate(year: number, month: number, day: number): string | undefined {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 && leap ? 29 : monthDays[month - 1];
  if (days === undefined || year < 1000 || year > 9999 || day < 1 || day > days) return undefined;
  return `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** Year of two digits: 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to 2068 (POSIX, strptime, %y). */
export function fullYear(digits: string): number {
  const year = Number(digits);
  if (digits.length > 2) return year;
  return year >= 69 ? 1900 + year : 2000 + year;
}

const dayMilliseconds = 86_400_000;

/**
 * Date of a spreadsheet's serial day number: in the 1900 system day 1 is 1900-01-01 and the day 60 is counted that never was
 * (29 February 1900); in the 1904 system day 0 is 1904-01-01. Source: ECMA-376, 1st
 * edition, part 4, 3.17.4.1 (18.17.4.1 of part 1 in later ones).
 * @param serial whole days; a part of a day is cut off
 */
export function serialDate(serial: number, system: 1900 | 1904): string | undefined {
  const day = Math.floor(serial);
  const [first, last] = system === 1900 ? [1, 2_958_465] : [0, 2_957_003];
  if (!(day >= first && day <= last) || (system === 1900 && day === 60)) return undefined;
  const origin =
    system === 1904 ? Date.UTC(1904, 0, 1) : day < 60 ? Date.UTC(1899, 11, 31) : Date.UTC(1899, 11, 30);
  return new Date(origin + day * dayMilliseconds).toISOString().slice(0, 10);
}

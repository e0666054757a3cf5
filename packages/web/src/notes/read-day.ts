import { dateOfDay, dayNumber, isDate } from '@keelrow/breeding/facts';

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/**
 * A day as people type it while they take notes on the day `on`: `today`, `yesterday`, `14` (the last 14th),
 * `14 May`, `May 14`, `5-14` (month first, as in the full date), `2031-05-14`; null if it is no day.
 */
export function readDay(text: string, on: string): string | null {
  const plain = text.trim().toLowerCase();
  if (isDate(plain)) return plain;
  if (plain === 'today' || plain === 't') return on;
  if (plain === 'yesterday' || plain === 'y') return dateOfDay(dayNumber(on) - 1);
  const year = Number(on.slice(0, 4));
  const named = /^(?:(\d{1,2})\.?\s*([a-z]{3,})|([a-z]{3,})\.?\s*(\d{1,2}))$/.exec(plain);
  if (named) {
    const month = months.findIndex((name) => (named[2] ?? named[3] ?? '').startsWith(name));
    return month < 0 ? null : valid(year, month + 1, Number(named[1] ?? named[4]));
  }
  const numbered = /^(\d{1,2})-(\d{1,2})$/.exec(plain);
  if (numbered) return valid(year, Number(numbered[1]), Number(numbered[2]));
  return /^\d{1,2}$/.test(plain) ? lastOfThatNumber(Number(plain), on) : null;
}

const valid = (year: number, month: number, day: number): string | null => {
  const two = (number: number): string => String(number).padStart(2, '0');
  const date = `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
  return isDate(date) ? date : null;
};

function lastOfThatNumber(number: number, on: string): string | null {
  if (number < 1 || number > 31) return null;
  let day = dayNumber(on);
  while (Number(dateOfDay(day).slice(8)) !== number) day--;
  return dateOfDay(day);
}

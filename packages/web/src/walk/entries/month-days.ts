import { dateOfDay, dayNumber } from '@keelrow/breeding/facts';

/** A month as `2031-05`, moved by so many months. */
export function monthBeside(month: string, by: number): string {
  const count = Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1 + by;
  return `${String(Math.floor(count / 12)).padStart(4, '0')}-${String((count % 12) + 1).padStart(2, '0')}`;
}

/** The days of a month in weeks that begin on Monday; null where a week belongs to the months beside it. */
export function weeksOf(month: string): (string | null)[][] {
  const first = dayNumber(`${month}-01`);
  const length = dayNumber(`${monthBeside(month, 1)}-01`) - first;
  // 1 January 1970 was a Thursday: the fourth day of a week that begins on Monday.
  const lead = (((first + 3) % 7) + 7) % 7;
  const days = [
    ...Array.from({ length: lead }, () => null),
    ...Array.from({ length }, (_, index) => dateOfDay(first + index)),
  ];
  while (days.length % 7 !== 0) days.push(null);
  return Array.from({ length: days.length / 7 }, (_, week) => days.slice(week * 7, week * 7 + 7));
}

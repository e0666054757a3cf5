import { dateOfDay, dayNumber } from '@keelrow/breeding/facts';

/** Inside the simulation a date is a whole number of days since 1970-01-01; rows carry it as text. */
export type Day = number;

const texts = new Map<Day, string>();

/** The date of a day as rows write it. */
export function dateText(day: Day): string {
  let text = texts.get(day);
  if (text === undefined) {
    text = dateOfDay(day);
    texts.set(day, text);
  }
  return text;
}

/** The day of a calendar date; month 1 to 12. */
export const dayOf = (year: number, month: number, date: number): Day =>
  dayNumber(`${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`);

/** A time of day as rows write it, from minutes after midnight. */
export const timeText = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

import type { ReactNode } from 'react';
import { dateInWords } from '../../parts/words.ts';

/**
 * The day that notes are of: a touch turns today into yesterday and back. Yesterday stays chosen for the day, and shows
 * that it is.
 */
export function DayChoice({
  on,
  today,
  yesterday,
  onChoose,
}: {
  readonly on: string;
  readonly today: string;
  readonly yesterday: string;
  readonly onChoose: (day: string) => void;
}): ReactNode {
  const isYesterday = on === yesterday;
  const name = isYesterday ? 'Yesterday' : 'Today';
  return (
    <button
      type="button"
      className={isYesterday ? 'walk-day walk-day-yesterday' : 'walk-day'}
      aria-label={`${name} ${shortDay(on)}, day of these notes: change to ${isYesterday ? 'today' : 'yesterday'}`}
      onClick={() => onChoose(isYesterday ? today : yesterday)}
    >
      {name} <span>{shortDay(on)}</span>
    </button>
  );
}

const shortDay = (day: string): string => dateInWords(day).replace(/ \d{4}$/, '');

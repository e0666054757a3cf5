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
  return (
    <button
      type="button"
      className={isYesterday ? 'walk-day walk-day-yesterday' : 'walk-day'}
      aria-label={`Notes are of ${isYesterday ? 'yesterday' : 'today'}, ${shortDay(on)}: change to ${isYesterday ? 'today' : 'yesterday'}`}
      onClick={() => onChoose(isYesterday ? today : yesterday)}
    >
      {isYesterday ? 'Yesterday' : 'Today'}
      <span>{shortDay(on)}</span>
    </button>
  );
}

const shortDay = (day: string): string => dateInWords(day).replace(/ \d{4}$/, '');

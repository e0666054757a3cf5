import type { ReactNode } from 'react';
import { dateInWords } from '../../parts/words.ts';

/** The day that notes are of: today, or yesterday by one touch; it stays chosen for the day, and shows that it is. */
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
  return (
    <fieldset className="walk-tabs walk-day" aria-label="Day of these notes">
      <button type="button" aria-pressed={on === today} onClick={() => onChoose(today)}>
        {on === today ? `Today, ${shortDay(today)}` : 'Today'}
      </button>
      <button type="button" aria-pressed={on === yesterday} onClick={() => onChoose(yesterday)}>
        {on === yesterday ? `Yesterday, ${shortDay(yesterday)}` : 'Yesterday'}
      </button>
    </fieldset>
  );
}

const shortDay = (day: string): string => dateInWords(day).replace(/ \d{4}$/, '');

import { type ReactNode, useState } from 'react';
import { dateInWords } from '../../parts/words.ts';
import { monthBeside, weeksOf } from './month-days.ts';

/** Days up to today, a month at a time. */
export function Calendar({
  today,
  onDay,
  onClose,
}: {
  readonly today: string;
  readonly onDay: (day: string) => void;
  readonly onClose: () => void;
}): ReactNode {
  const [month, setMonth] = useState(today.slice(0, 7));
  const name = dateInWords(`${month}-01`).slice(2);
  return (
    <div className="walk-calendar">
      <div className="walk-calendar-head">
        <button
          type="button"
          className="walk-key"
          aria-label="Month before"
          onClick={() => setMonth(monthBeside(month, -1))}
        >
          ‹
        </button>
        <strong>{name}</strong>
        <button
          type="button"
          className="walk-key"
          aria-label="Month after"
          disabled={month >= today.slice(0, 7)}
          onClick={() => setMonth(monthBeside(month, 1))}
        >
          ›
        </button>
        <button type="button" className="walk-key" onClick={onClose}>
          Close
        </button>
      </div>
      <div className="walk-calendar-days">
        {weeksOf(month)
          .flat()
          .map((day, index) =>
            day === null ? (
              // biome-ignore lint/suspicious/noArrayIndexKey: an empty place has no other name
              <span key={index} />
            ) : (
              <button
                key={day}
                type="button"
                className="walk-key"
                aria-label={dateInWords(day)}
                disabled={day > today}
                onClick={() => onDay(day)}
              >
                {Number(day.slice(8))}
              </button>
            ),
          )}
      </div>
    </div>
  );
}

import { type ReactNode, useState } from 'react';
import { dateInWords } from '../../parts/words.ts';
import { dayBefore } from '../note-facts.ts';
import { Calendar } from './calendar.tsx';
import type { EntryProps } from './entry-props.ts';

/** A stage or another date: today and yesterday are one touch, any other day is two. */
export function DayEntry({ trait, today, keep }: EntryProps): ReactNode {
  const [another, setAnother] = useState(false);
  const yesterday = dayBefore(today);
  if (another) {
    return <Calendar today={today} onDay={(day) => keep(day)} onClose={() => setAnother(false)} />;
  }
  return (
    <div className="walk-days">
      <button type="button" className="walk-keep walk-today" onClick={() => keep(today)}>
        {trait.sort === 'staged' ? `${trait.name} today` : 'Today'}
        <span>{dateInWords(today)}</span>
      </button>
      <button type="button" className="walk-key" onClick={() => keep(yesterday)}>
        Yesterday
        <span>{dateInWords(yesterday)}</span>
      </button>
      <button type="button" className="walk-key" onClick={() => setAnother(true)}>
        Another day
      </button>
    </div>
  );
}

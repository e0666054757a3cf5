import type { ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';

export function WrittenEntry({ trait, typed, setTyped, keep, dayChoice }: EntryProps): ReactNode {
  const text = typed.trim();
  return (
    <div className="walk-written">
      <div className="walk-tabs">{dayChoice}</div>
      <textarea
        aria-label={trait.name}
        rows={4}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      <button type="button" className="walk-keep" disabled={text === ''} onClick={() => keep(text, typed)}>
        Keep
      </button>
    </div>
  );
}

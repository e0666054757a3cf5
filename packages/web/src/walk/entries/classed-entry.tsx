import type { ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';

export function ClassedEntry({ trait, keep, dayChoice }: EntryProps): ReactNode {
  return (
    <>
      <div className="walk-tabs">{dayChoice}</div>
      <div className={trait.classes.length > 6 ? 'walk-classes walk-classes-many' : 'walk-classes'}>
        {trait.classes.map((word) => (
          <button key={word} type="button" className="walk-key" onClick={() => keep(word)}>
            {word}
          </button>
        ))}
      </div>
    </>
  );
}

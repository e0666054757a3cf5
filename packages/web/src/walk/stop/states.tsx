import type { TraitShown } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import type { Said } from '../note-facts.ts';

const states = [
  { state: 'not yet', words: 'Not yet' },
  { state: 'skipped', words: 'Skip' },
  { state: 'dead', words: 'Dead' },
  { state: 'missing', words: 'Missing' },
] as const;

/** Why there is no value, and what is the matter with the label: each a touch, each a note. */
export function States({
  label,
  labelNow,
  onState,
  onLabel,
  onOtherPlant,
}: {
  /** The trait for labels; null where the programme has none. */
  readonly label: TraitShown | null;
  /** What was noted of the label today. */
  readonly labelNow: string | null;
  readonly onState: (state: Exclude<Said['state'], 'seen'>) => void;
  readonly onLabel: (word: string) => void;
  readonly onOtherPlant: () => void;
}): ReactNode {
  return (
    <div className="walk-states">
      {states.map(({ state, words }) => (
        <button key={state} type="button" onClick={() => onState(state)}>
          {words}
        </button>
      ))}
      <fieldset className="walk-label" aria-label="Label">
        {label ? (
          label.classes.map((word) => (
            <button key={word} type="button" aria-pressed={word === labelNow} onClick={() => onLabel(word)}>
              <span>Label</span> {word}
            </button>
          ))
        ) : (
          <p>No trait “label” yet</p>
        )}
        <button type="button" onClick={onOtherPlant}>
          <span>Is</span> another
        </button>
      </fieldset>
    </div>
  );
}

import type { Measure } from '@keelrow/breeding/facts';
import type { ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';
import { readMeasured } from './measured-text.ts';
import { tallied } from './tally.ts';
import { openIn } from './tens-and-units.ts';

interface PadProps extends EntryProps {
  readonly measure: Measure;
  readonly keepText: (typed: string) => void;
}

/** Figure by figure, with a decimal point or quarters of an inch; counts have one more and one less. */
export function KeyPad({ trait, typed, setTyped, keepText, measure }: PadProps): ReactNode {
  const text = openIn(typed) ? '' : typed;
  const below = (trait.least ?? 0) < 0;
  const last =
    trait.sort === 'counted'
      ? ['−1', '0', '+1']
      : measure.unit === 'in'
        ? ['¼', '0', '½']
        : ['.', '0', below ? '−' : '.5'];
  const beside = measure.unit === 'in' && trait.sort !== 'counted' ? '¾' : null;
  const press = (key: string): void => {
    if (key === '+1' || key === '−1') setTyped(tallied(text, key === '+1' ? 1 : -1));
    else if (key === '−') setTyped(text.startsWith('-') ? text.slice(1) : `-${text}`);
    else setTyped(text + key);
  };
  return (
    <div className="walk-keypad settling">
      <div className="walk-keys walk-figures">
        {['7', '8', '9', '4', '5', '6', '1', '2', '3', ...last].map((key) => (
          <button key={key} type="button" className="walk-key" onClick={() => press(key)}>
            {key}
          </button>
        ))}
      </div>
      <div className="walk-keys walk-beside">
        <button
          type="button"
          className="walk-key"
          aria-label="Rub out the last figure"
          disabled={text === ''}
          onClick={() => setTyped(text.slice(0, -1))}
        >
          ⌫
        </button>
        {beside && (
          <button type="button" className="walk-key" onClick={() => press(beside)}>
            {beside}
          </button>
        )}
        <button
          type="button"
          className="walk-keep"
          disabled={readMeasured(text) === null}
          onClick={() => keepText(text)}
        >
          Keep
        </button>
      </div>
    </div>
  );
}

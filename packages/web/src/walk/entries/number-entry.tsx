import { measureOf } from '@keelrow/breeding/facts';
import type { MouseEvent, ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';
import { KeyPad } from './key-pad.tsx';
import { readMeasured } from './measured-text.ts';
import { type Pad, usePadChoice } from './pad-choice.ts';
import { TallyPad } from './tally-pad.tsx';
import { openIn } from './tens-and-units.ts';
import { TensPad } from './tens-pad.tsx';

const names: Record<Pad, string> = { tens: 'Tens', keys: 'Keys', tally: 'Tally' };

/** A measured or counted number: by two touches, figure by figure, or as a tally. */
export function NumberEntry(props: EntryProps): ReactNode {
  const { trait, units, keep, dayChoice } = props;
  const counts = trait.sort === 'counted';
  const pads: readonly Pad[] = counts ? ['tens', 'keys', 'tally'] : ['tens', 'keys'];
  const [pad, choosePad] = usePadChoice(trait.id, pads);
  const measure = measureOf(trait.unit, units);
  const keepText = (typed: string): void => {
    const number = readMeasured(typed);
    if (number !== null) keep(measure.toStored(number), typed);
  };
  const switchTo = (one: Pad, { currentTarget, detail }: MouseEvent<HTMLElement>): void => {
    // Enter then keeps what is typed; one who came here by keyboard stays here.
    if (detail > 0) currentTarget.blur();
    // A ten that waits for its units means nothing to the other ways.
    if (openIn(props.typed)) props.setTyped('');
    choosePad(one);
  };
  const shared = { ...props, measure, keepText };
  return (
    <>
      <fieldset className="walk-tabs" aria-label="Ways to enter">
        {dayChoice}
        {pads.map((one) => (
          <button
            key={one}
            type="button"
            aria-pressed={one === pad}
            onClick={(event) => switchTo(one, event)}
          >
            {names[one]}
          </button>
        ))}
      </fieldset>
      {pad === 'tens' ? (
        <TensPad {...shared} />
      ) : pad === 'keys' ? (
        <KeyPad {...shared} />
      ) : (
        <TallyPad {...shared} />
      )}
    </>
  );
}

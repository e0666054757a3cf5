import type { Measure } from '@keelrow/breeding/facts';
import type { ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';
import { quarters, readMeasured, writeInches } from './measured-text.ts';
import { usePadChoice } from './pad-choice.ts';
import { openIn, openTen, openWhole, twoTouchPad, unitsOf } from './tens-and-units.ts';

interface PadProps extends EntryProps {
  readonly measure: Measure;
  readonly keepText: (typed: string) => void;
}

/** Tens by the first touch, units by the second; where quarters of an inch are wanted, those by a third. */
export function TensPad({ trait, typed, setTyped, keepText, measure, usual }: PadProps): ReactNode {
  const inches = measure.unit === 'in';
  const [part, choosePart] = usePadChoice(`${trait.id} part`, ['whole', 'quarters']);
  const limit = (stored: number | null): number | null => (stored === null ? null : measure.toShown(stored));
  const pad = twoTouchPad(
    { least: limit(trait.least), most: limit(trait.most) },
    usual,
    trait.sort === 'counted',
  );
  const open = openIn(typed);
  const toQuarters = inches && part === 'quarters' && pad.unit === 1;

  if (open?.sort === 'whole') {
    return (
      <Keys step="whole" columns={2} rows={2}>
        {quarters.map((quarter) => {
          const text = writeInches(open.number + quarter);
          return (
            <Key key={quarter} words={text} onTouch={() => keepText(text)}>
              {text}
            </Key>
          );
        })}
      </Keys>
    );
  }
  if (open?.sort === 'ten') {
    return (
      <Keys step="ten" columns={5} rows={2}>
        {unitsOf(pad, open.number).map((number) => (
          <Key
            key={number}
            words={String(number)}
            onTouch={() => (toQuarters ? setTyped(openWhole(number)) : keepText(String(number)))}
          >
            {number}
          </Key>
        ))}
      </Keys>
    );
  }
  const standing = readMeasured(typed) !== null;
  return (
    <>
      <Keys step="tens" columns={6} rows={Math.ceil(pad.tens.length / 6)}>
        {pad.tens.map((ten) => {
          const shown = pad.unit === 1 ? `${ten / 10}_` : `${ten}.`;
          return (
            <Key key={ten} words={`${shown} (${ten} and more)`} onTouch={() => setTyped(openTen(ten))}>
              {shown}
            </Key>
          );
        })}
      </Keys>
      {standing && (
        <button type="button" className="walk-keep" onClick={() => keepText(typed)}>
          Keep {typed} {measure.unit}
        </button>
      )}
      {inches && !standing && (
        <button
          type="button"
          className="walk-choice"
          aria-pressed={toQuarters}
          onClick={() => choosePart(toQuarters ? 'whole' : 'quarters')}
        >
          To a quarter of an inch
        </button>
      )}
    </>
  );
}

function Keys({
  step,
  columns,
  rows,
  children,
}: {
  readonly step: string;
  readonly columns: number;
  /** Keys are as high as there is room for, up to so many rows of full height. */
  readonly rows: number;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <div
      key={step}
      className="walk-keys walk-pad settling"
      style={{ gridTemplateColumns: `repeat(${columns}, 1fr)`, maxHeight: `${rows * 72 - 8}px` }}
    >
      {children}
    </div>
  );
}

function Key({
  words,
  onTouch,
  children,
}: {
  readonly words: string;
  readonly onTouch: () => void;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <button type="button" className="walk-key" aria-label={words} onClick={onTouch}>
      {children}
    </button>
  );
}

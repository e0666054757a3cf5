import { readLab } from '@keelrow/breeding/facts';
import { type ReactNode, useMemo, useState } from 'react';
import { colourFamilies, type Swatch, wayOfGrid } from './colour-grid.ts';
import type { EntryProps } from './entry-props.ts';

/** A colour from a grid on the screen, the weakest way, and said so; or the reading of an instrument, typed. */
export function ColouredEntry({ typed, setTyped, keep, dayChoice }: EntryProps): ReactNode {
  const families = useMemo(colourFamilies, []);
  const [family, setFamily] = useState<number | null>(null);
  const [reading, setReading] = useState(typed !== '');
  const chosen = family === null ? undefined : families[family];
  const lab = readLab(typed);
  return (
    <>
      {!chosen && (
        <p className="walk-caution">
          The weakest way: the sun falsifies a screen. Add a picture with the grey card.
        </p>
      )}
      <fieldset className="walk-tabs" aria-label="Ways to enter">
        {dayChoice}
        <button type="button" aria-pressed={!reading} onClick={() => setReading(false)}>
          Grid
        </button>
        <button type="button" aria-pressed={reading} onClick={() => setReading(true)}>
          L a b
        </button>
        {chosen && !reading && (
          <button type="button" onClick={() => setFamily(null)}>
            All colours
          </button>
        )}
      </fieldset>
      {reading ? (
        <div className="walk-written">
          <label htmlFor="walk-lab">L a b, such as 45 5 -22</label>
          <input
            id="walk-lab"
            inputMode="text"
            autoComplete="off"
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
          <button
            type="button"
            className="walk-keep"
            disabled={lab === null}
            onClick={() => lab && keep(lab, typed)}
          >
            Keep
          </button>
        </div>
      ) : chosen ? (
        <div key={chosen.name} className="walk-swatches walk-shades settling">
          {chosen.shades.map((shade) => (
            <SwatchKey key={shade.name} swatch={shade} onTouch={() => keep(shade.lab, '', wayOfGrid)} />
          ))}
        </div>
      ) : (
        <div className="walk-swatches">
          {families.map(({ name, face }, index) => (
            <SwatchKey key={name} swatch={face} named={name} onTouch={() => setFamily(index)} />
          ))}
        </div>
      )}
    </>
  );
}

function SwatchKey({
  swatch: { name, hex },
  named,
  onTouch,
}: {
  readonly swatch: Swatch;
  readonly named?: string;
  readonly onTouch: () => void;
}): ReactNode {
  return (
    <button type="button" className="walk-swatch" aria-label={named ?? name} onClick={onTouch}>
      <span className="walk-swatch-face" style={{ background: hex }} />
      {named && <span className="walk-swatch-name">{named}</span>}
    </button>
  );
}

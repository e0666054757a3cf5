import { keptAs, type Lab, readLab } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { colourOnScreen, labOfScreenColour, screenHex } from '../parts/colour-on-screen.ts';
import { Field } from '../parts/field.tsx';
import { measureOf, useUnits } from '../parts/measure.ts';
import { readNumber } from '../records/read-field.ts';
import { edgeColours } from './edge-colours.ts';
import type { LimitBox, LimitTyped } from './limit-typed.ts';
import { weeksInWords } from './limit-words.ts';

interface BoxesProps {
  readonly trait: TraitShown;
  readonly typed: LimitTyped;
  readonly onType: (changed: Partial<LimitTyped>) => void;
  readonly problemOf: (box: LimitBox) => string | null;
}

/** What can be asked of a trait, by its sort. */
export function LimitBoxes(props: BoxesProps): ReactNode {
  switch (keptAs[props.trait.sort]) {
    case 'class':
      return <Classes {...props} />;
    case 'colour':
      return <Colour {...props} />;
    case 'date':
      return (
        <>
          <Weeks {...props} />
          <Ends {...props} />
        </>
      );
    default:
      return <Ends {...props} />;
  }
}

function Ends({ trait, typed, onType, problemOf }: BoxesProps): ReactNode {
  const units = useUnits();
  const isDay = keptAs[trait.sort] === 'date';
  const { unit } = measureOf(isDay ? null : trait.unit, units);
  const name = (words: string): string => (unit ? `${words}, ${unit}` : words);
  return (
    <div className="limit-pair">
      <Field label={name(isDay ? 'Not before' : 'At least')} problem={problemOf('atLeast')}>
        {(control) => (
          <input
            {...control}
            inputMode={isDay ? 'text' : 'decimal'}
            placeholder={isDay ? 'such as 20 May' : ''}
            value={typed.atLeast}
            onChange={(event) => onType({ atLeast: event.target.value })}
          />
        )}
      </Field>
      <Field label={name(isDay ? 'Not after' : 'At most')} problem={problemOf('atMost')}>
        {(control) => (
          <input
            {...control}
            inputMode={isDay ? 'text' : 'decimal'}
            placeholder={isDay ? 'such as 30 June' : ''}
            value={typed.atMost}
            onChange={(event) => onType({ atMost: event.target.value })}
          />
        )}
      </Field>
    </div>
  );
}

function Weeks({ typed, onType, problemOf }: BoxesProps): ReactNode {
  const week = (text: string): number | null => {
    const number = readNumber(text);
    return number !== null && number >= 1 && number <= 53 ? number : null;
  };
  const words = weeksInWords({ fromWeek: week(typed.fromWeek), toWeek: week(typed.toWeek) });
  return (
    <div className="limit-pair">
      <Field
        label="In flower from week"
        problem={problemOf('fromWeek')}
        hint={words || 'week 22 is that of 1 June'}
      >
        {(control) => (
          <input
            {...control}
            inputMode="numeric"
            value={typed.fromWeek}
            onChange={(event) => onType({ fromWeek: event.target.value })}
          />
        )}
      </Field>
      <Field label="To week" problem={problemOf('toWeek')}>
        {(control) => (
          <input
            {...control}
            inputMode="numeric"
            value={typed.toWeek}
            onChange={(event) => onType({ toWeek: event.target.value })}
          />
        )}
      </Field>
    </div>
  );
}

function Classes({ trait, typed, onType, problemOf }: BoxesProps): ReactNode {
  const problem = problemOf('classes');
  return (
    <fieldset className="limit-kind">
      <legend>Any of these will do</legend>
      {trait.classes.map((one) => (
        <label key={one} className="ticked">
          <input
            type="checkbox"
            checked={typed.classes.includes(one)}
            onChange={(event) =>
              onType({
                classes: event.target.checked
                  ? [...typed.classes, one]
                  : typed.classes.filter((other) => other !== one),
              })
            }
          />
          {one}
        </label>
      ))}
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </fieldset>
  );
}

function Colour({ typed, onType, problemOf }: BoxesProps): ReactNode {
  const lab = readLab(typed.colour.trim());
  const within = readNumber(typed.colourWithin);
  return (
    <>
      <div className="limit-pair">
        <Field label="Choose the colour">
          {(control) => (
            <input
              {...control}
              type="color"
              className="limit-picker"
              value={lab ? screenHex(lab) : '#6a5acd'}
              onChange={(event) => {
                const { l, a, b } = labOfScreenColour(event.target.value);
                onType({ colour: [l, a, b].map((part) => part.toFixed(1)).join(' ') });
              }}
            />
          )}
        </Field>
        <Field label="Colour, L a b" problem={problemOf('colour')} hint="CIELAB, as a colour meter tells it">
          {(control) => (
            <input
              {...control}
              value={typed.colour}
              placeholder="such as 45 5 -22"
              onChange={(event) => onType({ colour: event.target.value })}
            />
          )}
        </Field>
      </div>
      <Field
        label="How far from it is still right"
        hint="a difference by CIEDE2000: 0 is the very same colour"
        problem={problemOf('colourWithin')}
      >
        {(control) => (
          <input
            {...control}
            inputMode="decimal"
            value={typed.colourWithin}
            onChange={(event) => onType({ colourWithin: event.target.value })}
          />
        )}
      </Field>
      {lab && within !== null && within > 0 && <Edges lab={lab} within={within} />}
    </>
  );
}

/** The colour asked for beside those that would only just do: a difference in numbers says little to the eye. */
function Edges({ lab, within }: { readonly lab: Lab; readonly within: number }): ReactNode {
  return (
    <ul className="limit-edges" aria-label="The colour, and colours that would only just do">
      {[{ words: 'wanted', colour: lab }, ...edgeColours(lab, within)].map(({ words, colour }) => (
        <li key={words} className="small">
          <span className="limit-edge" style={{ background: colourOnScreen(colour) }} />
          {words}
        </li>
      ))}
    </ul>
  );
}

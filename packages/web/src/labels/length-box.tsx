import { type ReactNode, useState } from 'react';
import { Field } from '../parts/field.tsx';
import { type Units, useUnits } from '../parts/measure.ts';
import { lengthUnit, readLength, shownLength } from './forms.ts';

interface LengthBoxProps {
  readonly label: string;
  /** Millimetres. */
  readonly value: number;
  readonly onChange: (mm: number) => void;
}

/** A length in the programme's units; what is typed stays, told as wrong, until it is a length. */
export function LengthBox({ label, value, onChange }: LengthBoxProps): ReactNode {
  const units: Units = useUnits();
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null ? value : readLength(typed, units);
  return (
    <Field
      label={`${label}, ${lengthUnit(units)}`}
      problem={read === null ? 'Write a length, such as 20 or 2.5' : null}
    >
      {(control) => (
        <input
          {...control}
          className="label-number"
          inputMode="decimal"
          value={typed ?? shownLength(value, units)}
          onChange={({ target }) => {
            setTyped(target.value);
            const mm = readLength(target.value, units);
            if (mm !== null) onChange(mm);
          }}
          onBlur={() => read !== null && setTyped(null)}
        />
      )}
    </Field>
  );
}

interface CountBoxProps {
  readonly label: string;
  readonly value: number;
  readonly most: number;
  readonly onChange: (count: number) => void;
}

export function CountBox({ label, value, most, onChange }: CountBoxProps): ReactNode {
  const [typed, setTyped] = useState<string | null>(null);
  const wrong = typed !== null && !isCount(typed, most);
  return (
    <Field label={label} problem={wrong ? `Write a number from 1 to ${most}` : null}>
      {(control) => (
        <input
          {...control}
          className="label-number"
          inputMode="numeric"
          value={typed ?? value}
          onChange={({ target }) => {
            setTyped(target.value);
            if (isCount(target.value, most)) onChange(Number(target.value));
          }}
          onBlur={() => !wrong && setTyped(null)}
        />
      )}
    </Field>
  );
}

const isCount = (typed: string, most: number): boolean =>
  /^\d{1,4}$/.test(typed.trim()) && Number(typed) >= 1 && Number(typed) <= most;

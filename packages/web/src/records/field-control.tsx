import type { Field, KindName } from '@keelrow/breeding/facts';
import type { ReactNode } from 'react';
import { RecordPicker } from './record-picker.tsx';

interface ControlProps {
  readonly control: { id: string; 'aria-describedby': string | undefined; 'aria-invalid': true | undefined };
  readonly field: Field;
  readonly value: string;
  readonly onType: (value: string) => void;
  readonly refersTo: KindName | null;
}

/** The control that suits a field: a choice, a date, a number, another record, or plain text. */
export function FieldControl({ control, field, value, onType, refersTo }: ControlProps): ReactNode {
  const typing = {
    ...control,
    value,
    onChange: (event: { target: { value: string } }) => onType(event.target.value),
  };
  const example = field.example === '' ? undefined : `such as ${field.example}`;
  switch (field.type) {
    case 'choice':
      return <Select {...typing} choices={field.choices} />;
    case 'yes-no':
      return <Select {...typing} choices={['yes', 'no']} />;
    case 'date':
      return <input {...typing} type="date" />;
    case 'time':
      return <input {...typing} type="time" />;
    case 'number':
    case 'integer':
      return (
        <input
          {...typing}
          inputMode={field.type === 'integer' ? 'numeric' : 'decimal'}
          placeholder={example}
        />
      );
    case 'reference':
      return refersTo ? (
        <RecordPicker kind={refersTo} control={control} value={value} onType={onType} />
      ) : (
        <input {...typing} />
      );
    case 'parents':
      return <RecordPicker kind="genets" control={control} value={value} onType={onType} />;
    default:
      return <input {...typing} placeholder={example} />;
  }
}

function Select({
  choices,
  ...typing
}: {
  readonly choices: readonly string[];
  readonly value: string;
  readonly onChange: (event: { target: { value: string } }) => void;
} & ControlProps['control']): ReactNode {
  return (
    <select {...typing}>
      <option value="">not said</option>
      {choices.map((choice) => (
        <option key={choice} value={choice}>
          {choice}
        </option>
      ))}
    </select>
  );
}

import { fieldsOf, isKindName } from '@keelrow/breeding/facts';
import type { ImportPlan } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Field } from '../parts/field.tsx';
import { FieldControl } from '../records/field-control.tsx';
import { fieldName, meaningShown } from '../records/record-values.ts';
import { fieldsWithoutColumn } from './column-use.ts';

interface SameProps {
  readonly plan: ImportPlan;
  readonly onChange: (plan: ImportPlan) => void;
}

/** What the rows need and no column gives can be said once for all of them. */
export function SameForAll({ plan, onChange }: SameProps): ReactNode {
  const missing = new Set([...fieldsWithoutColumn(plan.kind, plan), ...Object.keys(plan.constants ?? {})]);
  const fields = fieldsOf(plan.kind).filter(([name]) => missing.has(name));
  const byYear = plan.columns.some((use) => use && 'year' in use);
  if (fields.length === 0 && !byYear) return null;
  const say = (name: string, value: string): void => {
    const { [name]: _former, ...others } = plan.constants ?? {};
    onChange({ ...plan, constants: value === '' ? others : { ...others, [name]: value } });
  };
  return (
    <fieldset className="same-for-all">
      <legend>No column holds this; if it is the same for every row, say it here</legend>
      {fields.map(([name, field]) => (
        <Field key={name} label={fieldName(name)} hint={meaningShown(field)} required={field.required}>
          {(control) => (
            <FieldControl
              control={control}
              field={field}
              value={plan.constants?.[name] ?? ''}
              onType={(value) => say(name, value)}
              refersTo={field.type === 'reference' && isKindName(field.to) ? field.to : null}
            />
          )}
        </Field>
      ))}
      {byYear && (
        <Field label="Day of the year for the notes" hint="Month and day; the file holds years alone.">
          {(control) => (
            <input
              {...control}
              placeholder="06-15"
              value={plan.yearDay ?? ''}
              onChange={(event) => onChange({ ...plan, yearDay: event.target.value || undefined })}
            />
          )}
        </Field>
      )}
    </fieldset>
  );
}

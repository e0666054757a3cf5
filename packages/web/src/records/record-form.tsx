import { type AnyRow, fieldsOf, isKindName, type KindName, kindOf } from '@keelrow/breeding/facts';
import { type FormEvent, type ReactNode, useMemo, useState } from 'react';
import { ApiError } from '../api/api-error.ts';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { useUnits } from '../parts/measure.ts';
import { Problem } from '../parts/states.tsx';
import { useToday } from '../parts/use-today.ts';
import { FieldControl } from './field-control.tsx';
import { unitBeside } from './read-field.ts';
import './record-form.css';
import { fieldName, meaningShown, readForm, toType } from './record-values.ts';

interface FormProps {
  readonly kind: KindName;
  /** The record as it stands; what a new one starts with. */
  readonly row: AnyRow;
  /** Fields shown, in this order; all of the kind's where not given. */
  readonly fields?: readonly string[];
  readonly submit: string;
  /** Asks why, where a change of an existing record is stored. */
  readonly asksWhy?: boolean;
  /** Stores what was typed; what it throws is shown beside the form, which keeps everything typed. */
  readonly onStore: (changed: AnyRow, reason: string | undefined) => Promise<void>;
}

/** A form for any kind of record, drawn from the kind's declaration. */
export function RecordForm({ kind, row, fields, submit, asksWhy, onStore }: FormProps): ReactNode {
  const units = useUnits();
  const today = useToday();
  const before = useMemo(() => toType(kind, row, units), [kind, row, units]);
  const [typed, setTyped] = useState(() => ({ ...before }));
  const [reason, setReason] = useState('');
  const [tried, setTried] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const [busy, setBusy] = useState(false);

  const isNew = row.id === undefined;
  const read = readForm(kind, typed, isNew ? {} : before, isNew ? {} : row, today, units);
  const problemOf = (name: string): string | null => {
    const found = read.problems.find(({ field }) => field === name);
    if (found && (tried || (typed[name] ?? '') !== '')) {
      return found.remedy ? `${found.problem}; ${found.remedy}` : found.problem;
    }
    return error instanceof ApiError && error.where?.field === name ? error.message : null;
  };
  const all = fieldsOf(kind);
  const shown = fields ? fields.flatMap((wanted) => all.filter(([name]) => name === wanted)) : all;
  const elsewhere = tried ? read.problems.filter(({ field }) => !shown.some(([name]) => name === field)) : [];

  const store = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    setTried(true);
    setError(null);
    if (read.problems.length > 0) return;
    setBusy(true);
    try {
      await onStore(read.changed, reason.trim() || undefined);
    } catch (problem) {
      setError(problem);
    } finally {
      setBusy(false);
    }
  };

  return (
    <form className="record-form" onSubmit={(event) => void store(event)} noValidate>
      <div className="record-fields">
        {shown.map(([name, field]) => {
          const unit = unitBeside(field, units);
          return (
            <Field
              key={name}
              label={unit ? `${fieldName(name)}, ${unit}` : fieldName(name)}
              required={field.required}
              hint={meaningShown(field)}
              problem={problemOf(name)}
            >
              {(control) => (
                <FieldControl
                  control={control}
                  field={field}
                  value={typed[name] ?? ''}
                  onType={(value) => setTyped((now) => ({ ...now, [name]: value }))}
                  refersTo={field.type === 'reference' && isKindName(field.to) ? field.to : null}
                />
              )}
            </Field>
          );
        })}
        {asksWhy && (
          <Field label="Why it is changed" hint="stands in the history">
            {(control) => (
              <input {...control} value={reason} onChange={(event) => setReason(event.target.value)} />
            )}
          </Field>
        )}
      </div>
      {elsewhere.map(({ field, problem, remedy }) => (
        <p key={field} className="field-problem" role="alert">
          {fieldName(field)}: {problem}
          {remedy && `; ${remedy}`}
        </p>
      ))}
      {error !== null && <Problem error={error} />}
      <div className="dialog-actions">
        <Button
          type="submit"
          look="main"
          disabled={busy || (!isNew && Object.keys(read.changed).length === 0)}
        >
          {busy ? 'Storing' : submit}
        </Button>
      </div>
      <span className="for-readers-only">{`A ${kindOf(kind).one}: ${kindOf(kind).about}`}</span>
    </form>
  );
}

import type { TraitShown } from '@keelrow/server/contract';
import { type FormEvent, type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { useUnits } from '../parts/measure.ts';
import { Problem } from '../parts/states.tsx';
import { addRecord, changeRecord, withdrawRecord } from '../records/store-record.ts';
import { beyondInForm } from './limit-beyond.ts';
import { LimitBoxes } from './limit-boxes.tsx';
import { emptyLimit, type LimitBox, type LimitTyped, readLimit, typedOf } from './limit-typed.ts';
import { canBeLimited, type Limit } from './limits.ts';

interface FormProps {
  readonly brief: string;
  /** The limit to be changed; null for a new one. */
  readonly limit: Limit | null;
  readonly traits: readonly TraitShown[];
  readonly onDone: () => void;
}

/** One limit: its trait, what is asked of it in boxes that suit the trait, and whether it is a must or a wish. */
export function LimitForm({ brief, limit, traits, onDone }: FormProps): ReactNode {
  const units = useUnits();
  const before = traits.find(({ code }) => code === limit?.trait);
  const [typed, setTyped] = useState<LimitTyped>(() =>
    limit && before ? typedOf(limit, before, units) : emptyLimit,
  );
  const [tried, setTried] = useState(false);
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const trait = traits.find(({ code }) => code === typed.trait);
  const read = readLimit(typed, trait, units);
  const problemOf = (box: LimitBox): string | null =>
    tried ? (read.problems.find((one) => one.box === box)?.problem ?? null) : null;
  const beyond = trait && read.problems.length === 0 ? beyondInForm(read.row, trait, units) : null;
  const type = (changed: Partial<LimitTyped>): void => setTyped((now) => ({ ...now, ...changed }));

  const doing = async (work: () => Promise<unknown>): Promise<void> => {
    setBusy(true);
    setError(null);
    try {
      await work();
      onDone();
    } catch (problem) {
      setError(problem);
      setBusy(false);
    }
  };
  const store = (event: FormEvent): void => {
    event.preventDefault();
    setTried(true);
    if (read.problems.length > 0) return;
    void doing(() =>
      limit
        ? changeRecord('brief-limits', { id: limit.id }, read.row)
        : addRecord('brief-limits', { brief, ...read.row }),
    );
  };

  return (
    <form className="limit-form" onSubmit={store} noValidate>
      <Field label="Trait" problem={problemOf('trait')} hint={trait?.how ?? undefined}>
        {(control) => (
          <select {...control} value={typed.trait} onChange={(event) => type({ trait: event.target.value })}>
            <option value="">choose a trait</option>
            {traits.filter(canBeLimited).map(({ code, name, notes }) => (
              <option key={code} value={code}>
                {name}
                {notes === 0 && ' (not noted yet)'}
              </option>
            ))}
          </select>
        )}
      </Field>
      {trait && <LimitBoxes trait={trait} typed={typed} onType={type} problemOf={problemOf} />}
      <fieldset className="limit-kind">
        <legend>How firm is it</legend>
        <label className="ticked">
          <input type="radio" name="must" checked={typed.must} onChange={() => type({ must: true })} />a must:
          what does not meet it will not do
        </label>
        <label className="ticked">
          <input type="radio" name="must" checked={!typed.must} onChange={() => type({ must: false })} />a
          wish: it counts by its weight
        </label>
      </fieldset>
      {!typed.must && (
        <Field
          label="Weight of the wish"
          hint="a wish of weight 2 counts twice as much as one of weight 1"
          problem={problemOf('weight')}
        >
          {(control) => (
            <input
              {...control}
              inputMode="decimal"
              value={typed.weight}
              onChange={(event) => type({ weight: event.target.value })}
            />
          )}
        </Field>
      )}
      {beyond && (
        <p className="limit-beyond" role="status">
          {beyond}
        </p>
      )}
      {error !== null && <Problem error={error} />}
      <div className="dialog-actions">
        {limit && (
          <Button
            look="quiet"
            disabled={busy}
            onClick={() =>
              void doing(() => withdrawRecord('brief-limits', limit.id, 'taken out of the brief'))
            }
          >
            Take it out of the brief
          </Button>
        )}
        <Button type="submit" look="main" disabled={busy}>
          {busy ? 'Storing' : limit ? 'Store the change' : 'Add it'}
        </Button>
      </div>
    </form>
  );
}

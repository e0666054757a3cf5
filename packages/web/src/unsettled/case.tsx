import type { UnsettledCase } from '@keelrow/server/contract';
import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { queryClient } from '../api/queries.ts';
import { send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { Problem } from '../parts/states.tsx';
import { NoteInCase } from './note-in-case.tsx';

/** All of them, or the id of the one that holds. */
type Held = 'all' | (string & {});

/** One contradiction: its notes side by side, which of them hold, and why. */
export function Case({ unsettled }: { readonly unsettled: UnsettledCase }): ReactNode {
  const { plant, trait, notes } = unsettled;
  const [held, setHeld] = useState<Held | null>(null);
  const [reason, setReason] = useState('');
  const [error, setError] = useState<unknown>(null);
  const name = useId();
  const settle = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const ids = notes.map(({ id }) => id);
    const keep = ids.filter((id) => held === 'all' || held === id);
    const strike = ids.filter((id) => !keep.includes(id));
    try {
      await send('POST', 'unsettled/settle', { keep, strike, reason: reason.trim() });
      await queryClient.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'note-grid' });
    } catch (problem) {
      setError(problem);
    }
  };
  return (
    <li className="case">
      <h2>
        {plant.code} <span className="case-trait">{trait.name}</span>
      </h2>
      <form onSubmit={(event) => void settle(event)}>
        <fieldset className="case-choice" aria-label={`Which notes of ${trait.name} on ${plant.code} hold`}>
          <div className="case-notes">
            {notes.map((note) => (
              <label
                key={note.id}
                className={struck(held, note.id) ? 'case-note case-note-struck' : 'case-note'}
              >
                <NoteInCase note={note} unit={trait.unit} struck={struck(held, note.id)} />
                <span className="ticked">
                  <input
                    type="radio"
                    name={name}
                    checked={held === note.id}
                    onChange={() => setHeld(note.id)}
                  />
                  This one holds
                </span>
              </label>
            ))}
          </div>
          <label className="ticked">
            <input type="radio" name={name} checked={held === 'all'} onChange={() => setHeld('all')} />
            {notes.length === 2 ? 'Both stand' : 'All stand'}: each was right for what it was noted on
          </label>
        </fieldset>
        {held !== null && (
          <>
            <Field
              label="Why"
              required
              hint={
                held === 'all'
                  ? undefined
                  : 'What does not hold is struck out, not deleted: the history keeps it with this reason.'
              }
            >
              {(control) => (
                <input
                  {...control}
                  required
                  maxLength={2000}
                  value={reason}
                  onChange={(event) => setReason(event.target.value)}
                />
              )}
            </Field>
            {error !== null && <Problem error={error} />}
            <div>
              <Button type="submit" look="main" disabled={reason.trim() === ''}>
                Settle it
              </Button>
            </div>
          </>
        )}
      </form>
    </li>
  );
}

const struck = (held: Held | null, id: string): boolean => held !== null && held !== 'all' && held !== id;

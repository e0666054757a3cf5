import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';
import { counted } from '../parts/words.ts';
import { phone } from '../phone/store.ts';
import { usePhoneState } from '../phone/use-phone.ts';
import type { CellStatus } from './grid-state.ts';
import { noteStore, useNotesEntered } from './note-store.ts';

/** How many notes are where; the keys that help; undo. */
export function NotesState(): ReactNode {
  const { cells, past } = useNotesEntered();
  const { trouble } = usePhoneState();
  const count = (...statuses: CellStatus[]): number =>
    [...cells.values()].filter(({ status }) => statuses.includes(status)).length;
  const [waiting, kept, wrong] = [count('waiting', 'sending'), count('kept'), count('held', 'refused')];

  return (
    <div className="notes-state">
      <p role="status">
        {[
          kept > 0 && `${counted(kept, 'note')} kept`,
          waiting > 0 && `${waiting} waiting`,
          wrong > 0 && `${wrong} to mend`,
        ]
          .filter(Boolean)
          .join(', ') || 'Nothing entered yet'}
      </p>
      {trouble && waiting > 0 && (
        <p className="field-problem">
          {trouble} <Button onClick={() => void phone.handOver()}>Hand over now</Button>
        </p>
      )}
      <Button icon="undo" disabled={past.length === 0} onClick={() => noteStore.undo()}>
        Undo
      </Button>
      <ul className="notes-keys" aria-label="Keys">
        <li>
          <kbd>N</kbd> not yet
        </li>
        <li>
          <kbd>D</kbd> dead
        </li>
        <li>
          <kbd>M</kbd> missing
        </li>
        <li>
          <kbd>Enter</kbd> down
        </li>
        <li>
          <kbd>Tab</kbd> right
        </li>
        <li className="soft">in columns of words, with Alt</li>
      </ul>
    </div>
  );
}

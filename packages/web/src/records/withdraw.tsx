import { type KindName, kindOf } from '@keelrow/breeding/facts';
import { type FormEvent, type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { Field } from '../parts/field.tsx';
import { Problem } from '../parts/states.tsx';
import { withdrawRecord } from './store-record.ts';

interface WithdrawProps {
  readonly kind: KindName;
  readonly id: string;
  readonly label: string;
  readonly onClose: () => void;
  readonly onDone?: () => void;
}

/** Takes a record out of use: it stays in the history with the reason. */
export function Withdraw({ kind, id, label, onClose, onDone }: WithdrawProps): ReactNode {
  const [reason, setReason] = useState('');
  const [error, setError] = useState<unknown>(null);
  const withdraw = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    try {
      await withdrawRecord(kind, id, reason.trim());
      onDone?.();
      onClose();
    } catch (problem) {
      setError(problem);
    }
  };
  return (
    <Dialog title={`Withdraw ${kindOf(kind).one} ${label}`} onClose={onClose}>
      <form className="record-form" onSubmit={(event) => void withdraw(event)}>
        <p>It is struck out, not deleted: the history keeps it, and its code is not used again.</p>
        <Field label="Why" required>
          {(control) => (
            <input {...control} required value={reason} onChange={(event) => setReason(event.target.value)} />
          )}
        </Field>
        {error !== null && <Problem error={error} />}
        <div className="dialog-actions">
          <Button onClick={onClose}>Leave it</Button>
          <Button type="submit" look="danger" disabled={reason.trim() === ''}>
            Withdraw
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

import { type AnyRow, type KindName, kindOf } from '@keelrow/breeding/facts';
import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { History } from './history.tsx';
import { RecordForm } from './record-form.tsx';
import { changeRecord } from './store-record.ts';
import { Withdraw } from './withdraw.tsx';

interface SheetProps {
  readonly kind: KindName;
  readonly row: AnyRow & { readonly id: string };
  readonly label: string;
  readonly onClose: () => void;
}

/** One record of any kind: change it, see its history, withdraw it. */
export function RecordSheet({ kind, row, label, onClose }: SheetProps): ReactNode {
  const [withdrawing, setWithdrawing] = useState(false);
  const [history, setHistory] = useState(false);
  const declared = kindOf(kind);
  if (withdrawing) return <Withdraw kind={kind} id={row.id} label={label} onClose={onClose} />;
  return (
    <Dialog title={`${declared.one} ${label}`} onClose={onClose} wide>
      {declared.nature === 'fact' && (
        <p className="soft">
          A {declared.one} is a fact: a change is stored as a new one that replaces this one.
        </p>
      )}
      <RecordForm
        kind={kind}
        row={row}
        submit="Store the change"
        asksWhy
        onStore={async (changed, reason) => {
          await changeRecord(kind, row, changed, reason);
          onClose();
        }}
      />
      <details className="fold" onToggle={(event) => setHistory(event.currentTarget.open)}>
        <summary>History</summary>
        {history && <History kind={kind} id={row.id} />}
      </details>
      <div>
        <Button look="quiet" onClick={() => setWithdrawing(true)}>
          Withdraw it
        </Button>
      </div>
    </Dialog>
  );
}

import type { AnyRow } from '@keelrow/breeding/facts';
import { useNavigate } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { RecordForm } from '../records/record-form.tsx';
import { changeRecord } from '../records/store-record.ts';
import { Withdraw } from '../records/withdraw.tsx';

export default function ChangeGenet({
  id,
  row,
  onClose,
}: {
  readonly id: string;
  readonly row: AnyRow;
  readonly onClose: () => void;
}): ReactNode {
  const navigate = useNavigate();
  const [withdrawing, setWithdrawing] = useState(false);
  const code = String(row.code ?? '');
  if (withdrawing) {
    return (
      <Withdraw
        kind="genets"
        id={id}
        label={code}
        onClose={onClose}
        onDone={() => void navigate({ to: '/plants' })}
      />
    );
  }
  return (
    <Dialog title={`Change ${code}`} onClose={onClose} wide>
      <RecordForm
        kind="genets"
        row={{ ...row, id }}
        submit="Store the change"
        asksWhy
        onStore={async (changed, reason) => {
          await changeRecord('genets', { ...row, id }, changed, reason);
          onClose();
          if (typeof changed.code === 'string') {
            await navigate({ to: '/plants/$genet', params: { genet: changed.code }, replace: true });
          }
        }}
      />
      <div>
        <Button look="quiet" onClick={() => setWithdrawing(true)}>
          Withdraw this genet
        </Button>
      </div>
    </Dialog>
  );
}

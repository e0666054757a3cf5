import { type ReactNode, useState } from 'react';
import { Dialog } from '../parts/dialog.tsx';
import { useToday } from '../parts/use-today.ts';
import { RecordForm } from '../records/record-form.tsx';
import { addRecord } from '../records/store-record.ts';

const fields = ['decision', 'reason', 'on'];

export default function Decide({
  genet,
  onClose,
}: {
  readonly genet: string;
  readonly onClose: () => void;
}): ReactNode {
  const today = useToday();
  const [row] = useState({ genet, on: today });
  return (
    <Dialog title={`Decide on ${genet}`} onClose={onClose}>
      <RecordForm
        kind="decisions"
        row={row}
        fields={fields}
        submit="Store the decision"
        onStore={async (decision) => {
          await addRecord('decisions', decision);
          onClose();
        }}
      />
    </Dialog>
  );
}

import { type ReactNode, useState } from 'react';
import { Dialog } from '../parts/dialog.tsx';
import { useToday } from '../parts/use-today.ts';
import { RecordForm } from '../records/record-form.tsx';
import { addRecord } from '../records/store-record.ts';

const fields = ['code', 'place', 'walk', 'planted_on', 'raised_as', 'remark'];

export default function AddToGenet({
  genet,
  taken,
  onClose,
}: {
  readonly genet: string;
  readonly taken: number;
  readonly onClose: () => void;
}): ReactNode {
  const today = useToday();
  const [row] = useState({ code: `${genet}/${taken + 1}`, genet, planted_on: today });
  return (
    <Dialog title={`Add a plant of ${genet}`} onClose={onClose} wide>
      <RecordForm
        kind="plants"
        row={row}
        fields={fields}
        submit="Store the plant"
        onStore={async (plant) => {
          await addRecord('plants', plant);
          onClose();
        }}
      />
    </Dialog>
  );
}

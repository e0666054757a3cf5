import type { AnyRow } from '@keelrow/breeding/facts';
import { useNavigate } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { Dialog } from '../parts/dialog.tsx';
import { useToday } from '../parts/use-today.ts';
import { RecordForm } from '../records/record-form.tsx';
import { addRecord } from '../records/store-record.ts';

const genetFields = [
  'code',
  'name',
  'taxon',
  'origin',
  'seed_parent',
  'pollen_parent',
  'raised_in',
  'standard',
];
const plantFields = ['code', 'place', 'walk', 'planted_on', 'raised_as'];

/** Two steps: the genet, then its first plant in a bed; the second may be left for later. */
export default function AddPlant({ onClose }: { readonly onClose: () => void }): ReactNode {
  const navigate = useNavigate();
  const today = useToday();
  const [genet, setGenet] = useState<string | null>(null);
  const [first] = useState<AnyRow>({});
  const show = (code: string): void => {
    onClose();
    void navigate({ to: '/plants/$genet', params: { genet: code } });
  };

  if (genet === null) {
    return (
      <Dialog title="Add a plant: what it is" onClose={onClose} wide>
        <p className="soft">
          A genet is one genetic individual, however many plants of it there are. Its plants and places come
          next.
        </p>
        <RecordForm
          kind="genets"
          row={first}
          fields={genetFields}
          submit="Store and go on"
          onStore={async (row) => {
            const stored = await addRecord('genets', row);
            setGenet(String(stored.row.code ?? row.code));
          }}
        />
      </Dialog>
    );
  }
  return (
    <Dialog title={`Add a plant: where ${genet} stands`} onClose={() => show(genet)} wide>
      <p className="soft">
        {genet} is stored. If a plant of it stands somewhere, say where; or <em>close this</em> and do it
        later.
      </p>
      <RecordForm
        kind="plants"
        row={{ code: `${genet}/1`, genet, planted_on: today }}
        fields={plantFields}
        submit="Store the plant"
        onStore={async (row) => {
          await addRecord('plants', { ...row, genet });
          show(genet);
        }}
      />
    </Dialog>
  );
}

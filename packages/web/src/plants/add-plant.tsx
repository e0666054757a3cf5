import type { AnyRow } from '@keelrow/breeding/facts';
import { useNavigate } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { PlantForm } from '../genet/plant-form.tsx';
import { Dialog } from '../parts/dialog.tsx';
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

/** Two steps: the genet, then its first plant in a bed; the second may be left for later. */
export default function AddPlant({ onClose }: { readonly onClose: () => void }): ReactNode {
  const navigate = useNavigate();
  const [genet, setGenet] = useState<string | null>(null);
  const [empty] = useState<AnyRow>({});
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
          row={empty}
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
        {genet} is stored. If a plant of it stands somewhere, say where; or close this and do it later.
      </p>
      <PlantForm genet={genet} onStored={() => show(genet)} />
    </Dialog>
  );
}

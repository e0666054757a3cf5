import type { ReactNode } from 'react';
import { Dialog } from '../parts/dialog.tsx';
import { PlantForm } from './plant-form.tsx';

export default function AddToGenet({
  genet,
  onClose,
}: {
  readonly genet: string;
  readonly onClose: () => void;
}): ReactNode {
  return (
    <Dialog title={`Add a plant of ${genet}`} onClose={onClose} wide>
      <PlantForm genet={genet} onStored={onClose} />
    </Dialog>
  );
}

import type { LabelReading } from '@keelrow/breeding/labels';
import type { HeldPlant } from '@keelrow/server/contract';
import { type ReactNode, useState } from 'react';
import { ScanButton } from '../../scan/scan-button.tsx';
import { plantsByTail } from '../order/code-tail.ts';
import { Sheet } from './sheet.tsx';
import { TailKeys } from './tail-keys.tsx';

/** Finds a plant by its label, scanned, or by the tail of its code. */
export function FindSheet({
  plants,
  onPlant,
  onPlan,
  onClose,
}: {
  /** Those of the round first. */
  readonly plants: readonly HeldPlant[];
  readonly onPlant: (plant: HeldPlant) => void;
  readonly onPlan: () => void;
  readonly onClose: () => void;
}): ReactNode {
  const [typed, setTyped] = useState('');
  const found = plantsByTail(plants, typed);
  /** A code that is known leads straight to its plant; any other stands in the box and is told. */
  const onScanned = (text: string, readings: readonly LabelReading[]): void => {
    const known = readings.flatMap(({ code, check }) =>
      check === 'wrong' ? [] : plants.filter((plant) => plant.code.toUpperCase() === code.toUpperCase()),
    );
    if (known[0]) onPlant(known[0]);
    else setTyped(text);
  };
  return (
    <Sheet title="Find a plant" onClose={onClose}>
      <div className="walk-find">
        <ul className="walk-found" aria-live="polite">
          {typed !== '' && found.plants.length === 0 && (
            <li>
              <p>No plant on this phone has a code that ends in “{typed}”.</p>
            </li>
          )}
          {found.checkWrong && (
            <li>
              <p className="walk-refused">The check character does not fit: read the label once more.</p>
            </li>
          )}
          {found.plants.slice(0, 20).map((plant) => (
            <li key={plant.id}>
              <button type="button" className="walk-key" onClick={() => onPlant(plant)}>
                <strong>{plant.code}</strong> {plant.genetName ?? plant.parents}
              </button>
            </li>
          ))}
        </ul>
        <TailKeys typed={typed} setTyped={setTyped} />
        <button type="button" className="walk-key" onClick={onPlan}>
          Plan of the bed
        </button>
        <ScanButton className="walk-scan" onCode={onScanned}>
          Scan the label
        </ScanButton>
      </div>
    </Sheet>
  );
}

import type { Units } from '@keelrow/breeding/facts';
import { checkCharacter } from '@keelrow/breeding/labels';
import type { HeldPlace, HeldPlant } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { placeInWords } from '../order/place-in-words.ts';

/** Which plant one stands before: its code as on the label, what it is, and where it stands. */
export function PlantHead({
  plant,
  bed,
  inBed,
  units,
  marks,
}: {
  readonly plant: HeldPlant;
  readonly bed: HeldPlace | null;
  readonly inBed: readonly HeldPlant[];
  readonly units: Units;
  /** What was noted of the plant itself: dead, label lost. */
  readonly marks: readonly string[];
}): ReactNode {
  const check = checkCharacter(plant.code);
  const what = plant.genetName ?? plant.parents;
  const where = [bed?.name ?? bed?.code, placeInWords(plant, inBed, units)].filter(Boolean).join(' · ');
  return (
    <div className="walk-plant">
      <h1 className={plant.code.length > 16 ? 'walk-code walk-code-long' : 'walk-code'}>
        {plant.code}
        {check && (
          <span className="walk-check" title="Check character of the label">
            {check}
          </span>
        )}
      </h1>
      {what && <p className="walk-what">{what}</p>}
      <p className="walk-where">
        {where}
        {marks.map((mark) => (
          <strong key={mark} className="walk-mark">
            {mark}
          </strong>
        ))}
      </p>
    </div>
  );
}

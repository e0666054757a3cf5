import type { HeldPlace, HeldPlant } from '@keelrow/server/contract';
import { type ReactNode, useEffect, useRef } from 'react';
import { isPlaced, rowsOfBed } from '../order/rows-of-bed.ts';
import { shortTails } from '../order/short-tails.ts';
import { Sheet } from './sheet.tsx';

/** The bed as one stands before it: its length runs down the sheet, its rows side by side; each plant a large key. */
export function PlanSheet({
  bed,
  inBed,
  here,
  isDone,
  onPlant,
  onClose,
}: {
  readonly bed: HeldPlace | null;
  readonly inBed: readonly HeldPlant[];
  readonly here: string;
  readonly isDone: (plant: string) => boolean;
  readonly onPlant: (plant: HeldPlant) => void;
  readonly onClose: () => void;
}): ReactNode {
  const placed = inBed.filter(isPlaced);
  const rows = placed.length === inBed.length ? rowsOfBed(placed) : [inBed];
  const tails = shortTails(inBed.map(({ code }) => code));
  const standing = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    standing.current?.scrollIntoView({ block: 'center' });
  }, []);
  return (
    <Sheet title={`Plan of ${bed?.name ?? bed?.code ?? 'the bed'}`} onClose={onClose}>
      <div className="walk-plan">
        {rows.map((row, index) => (
          <fieldset key={row[0]?.id} className="walk-plan-row" aria-label={`Row ${index + 1}`}>
            <span className="walk-plan-name">{index + 1}</span>
            {row.map((plant) => (
              <button
                key={plant.id}
                ref={plant.id === here ? standing : null}
                type="button"
                className={isDone(plant.id) ? 'walk-plan-plant walk-plan-done' : 'walk-plan-plant'}
                aria-current={plant.id === here ? 'location' : undefined}
                aria-label={`${plant.code}${isDone(plant.id) ? ', done' : ''}`}
                onClick={() => onPlant(plant)}
              >
                {tails.get(plant.code)}
              </button>
            ))}
          </fieldset>
        ))}
      </div>
    </Sheet>
  );
}

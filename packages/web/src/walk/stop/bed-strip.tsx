import type { HeldPlace, HeldPlant } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { isPlaced } from '../order/rows-of-bed.ts';

/** The bed drawn to scale in a strip, its length from left to right, the plant marked; a touch opens the large plan. */
export function BedStrip({
  bed,
  inBed,
  plant,
  isDone,
  onOpen,
}: {
  readonly bed: HeldPlace | null;
  readonly inBed: readonly HeldPlant[];
  readonly plant: HeldPlant;
  readonly isDone: (plant: string) => boolean;
  readonly onOpen: () => void;
}): ReactNode {
  const [width, height, edge] = [366, 56, 8];
  const placed = inBed.filter(isPlaced);
  const drawn = placed.length === inBed.length && placed.length > 0;
  const most = (numbers: readonly number[]): number => Math.max(0.1, ...numbers);
  const length = bed?.lengthM ?? most(placed.map(({ eastM }) => eastM)) + 0.3;
  const across = bed?.widthM ?? most(placed.map(({ northM }) => northM)) + 0.3;
  const spots = drawn
    ? placed.map((one) => ({
        id: one.id,
        x: edge + (one.eastM / length) * (width - 2 * edge),
        // The near side of the bed, with row 1, lies at the foot.
        y: height - edge - (one.northM / across) * (height - 2 * edge),
      }))
    : inBed.map(({ id }, index) => ({
        id,
        x: edge + ((index + 0.5) / inBed.length) * (width - 2 * edge),
        y: height / 2,
      }));
  const here = spots.find(({ id }) => id === plant.id);
  return (
    <button
      type="button"
      className="walk-strip"
      aria-label={`Plan of ${bed?.code ?? 'the bed'}: jump to a plant`}
      onClick={onOpen}
    >
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
        <rect x="1" y="1" width={width - 2} height={height - 2} className="walk-strip-bed" />
        {spots.map(({ id, x, y }) => (
          <circle
            key={id}
            cx={x}
            cy={y}
            r="3.2"
            className={isDone(id) ? 'walk-spot walk-spot-done' : 'walk-spot'}
          />
        ))}
        {here && (
          <>
            <path d={`M${here.x} 1V${height - 1}`} className="walk-spot-line" />
            <circle cx={here.x} cy={here.y} r="8" className="walk-spot-here" />
          </>
        )}
      </svg>
    </button>
  );
}

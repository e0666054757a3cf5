import type { ReactNode } from 'react';
import { drawPanel } from './panel-places.ts';
import { markLook, markPath } from './residual-marks.ts';
import type { BedPanels, Panel } from './residual-panels.ts';

const size = { width: 128, highest: 110, margin: 7 };
const looks = ['residual-even', 'residual-below', 'residual-above'] as const;

/** One bed in one year, small: a path for each kind of mark, so that a page of hundreds of panels stays quick. */
export function SmallPanel({
  frame,
  panel,
}: {
  readonly frame: BedPanels['frame'];
  readonly panel: Panel;
}): ReactNode {
  const drawing = drawPanel(frame, panel, size);
  // Marks of neighbours may touch, not hide one another.
  const largest = Math.min(5, Math.max(2.2, 34 / Math.sqrt(Math.max(1, drawing.placed.length))));
  return (
    <svg width={drawing.width} height={drawing.height} aria-hidden="true">
      {looks.map((look) => (
        <path
          key={look}
          className={look}
          d={drawing.placed
            .filter(({ spot }) => markLook(spot.step) === look)
            .map(({ spot, x, y }) => markPath(x, y, spot.step, largest))
            .join('')}
        />
      ))}
    </svg>
  );
}

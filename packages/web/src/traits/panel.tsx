import type { ReactNode } from 'react';
import { drawPanel } from './panel-places.ts';
import { markLook, markPath } from './residual-marks.ts';
import type { BedPanels, Panel } from './residual-panels.ts';

const looks = ['residual-even', 'residual-below', 'residual-above'] as const;

/** One bed in one year, small: a path for each kind of mark, so that a page of hundreds of panels stays quick. */
export function SmallPanel({
  frame,
  panel,
  phone,
}: {
  readonly frame: BedPanels['frame'];
  readonly panel: Panel;
  readonly phone: boolean;
}): ReactNode {
  const size = { width: phone ? 300 : 560, highest: 130, margin: 8 };
  const drawing = drawPanel(frame, panel, size);
  // Marks of neighbours may touch, not hide one another.
  const largest = Math.min(7, Math.max(3, (phone ? 42 : 70) / Math.sqrt(Math.max(1, drawing.placed.length))));
  return (
    <svg viewBox={`0 0 ${drawing.width} ${drawing.height}`} aria-hidden="true">
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

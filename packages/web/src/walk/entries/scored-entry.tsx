import type { ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';
import { NumberEntry } from './number-entry.tsx';

/** More points than this are no scale that is taken in at a glance. */
const mostPoints = 11;

/** The points of a scale, each a touch, with a mark that rises along it. */
export function ScoredEntry(props: EntryProps): ReactNode {
  const { trait, keep, dayChoice } = props;
  const { least, most } = trait;
  if (least === null || most === null || most - least + 1 > mostPoints) return <NumberEntry {...props} />;
  const points = Array.from({ length: Math.floor(most - least) + 1 }, (_, index) => least + index);
  const columns = points.length > 6 ? Math.ceil(points.length / 2) : points.length;
  return (
    <>
      <div className="walk-tabs">{dayChoice}</div>
      <div className="walk-keys walk-scale" style={{ gridTemplateColumns: `repeat(${columns}, 1fr)` }}>
        {points.map((point, index) => (
          <button key={point} type="button" className="walk-key" onClick={() => keep(point, String(point))}>
            {point}
            <span
              className="walk-rise"
              aria-hidden="true"
              style={{ height: `${Math.round(((index + 1) / points.length) * 100)}%` }}
            />
          </button>
        ))}
      </div>
    </>
  );
}

import type { WintersReport } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { measureOf, useUnits } from '../parts/measure.ts';
import { ChanceTable, lineOf } from './chance-table.tsx';
import { coldShown } from './winter-words.ts';

/** The chance of the middle genet of each origin, the likeliest first. */
export function Origins({ report: { origins, at } }: { readonly report: WintersReport }): ReactNode {
  const measure = measureOf('°C', useUnits());
  return (
    <>
      <p className="small soft">
        The chance to come through {at === null ? 'a winter' : `a winter of ${coldShown(at, measure)}`} after
        the first one. The truth lies in the bar 8 times out of 10.
      </p>
      <ChanceTable
        of="Origin"
        label="Origins by their chance to come through a winter"
        line={lineOf(origins)}
        rows={[...origins]
          .sort((a, b) => b.chance - a.chance)
          .map((one) => ({ ...one, key: one.origin, name: one.origin }))}
      />
    </>
  );
}

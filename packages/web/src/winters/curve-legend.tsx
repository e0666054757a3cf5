import type { WinterCurve } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { winterMark } from './winter-mark.ts';

/** How the lines and marks of a kind of curve are dressed. */
export const curveLook: Readonly<Record<WinterCurve['of'], string>> = {
  'later winters': 'cold-later',
  'all winters': 'cold-later',
  'first winters': 'cold-first',
  origin: 'cold-origin',
};

const names: Readonly<Record<WinterCurve['of'], string>> = {
  'later winters': 'plants past their first winter',
  'all winters': 'all plants',
  'first winters': 'plants in their first winter',
  origin: '',
};

/** What the lines and marks mean. */
export function CurveLegend({ drawn }: { readonly drawn: readonly WinterCurve[] }): ReactNode {
  return (
    <>
      <ul className="cold-legend">
        {drawn.map(({ of, origin }) => (
          <li key={of}>
            <svg width="44" height="18" aria-hidden="true" className={curveLook[of]}>
              <path className="cold-band" d="M0 3H44V15H0Z" />
              <path className="cold-line" d="M0 9H44" />
              {of !== 'origin' && <path className="cold-winter" d={winterMark(of, 22, 9, 5)} />}
            </svg>
            {origin === null ? names[of] : `${origin}, after its first winter`}
          </li>
        ))}
      </ul>
      <p className="small soft">
        The band holds the true line 8 times out of 10. A mark is a winter as it was, by the year that it
        ended in: the share that came through; the larger, the more plants stood.
      </p>
    </>
  );
}

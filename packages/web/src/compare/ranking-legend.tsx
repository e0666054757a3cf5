import type { ReactNode } from 'react';
import { Icon } from '../parts/icon.tsx';
import type { Worth } from './ranked.ts';

/** What the marks of the ranking mean. */
export function RankingLegend({
  worth,
  kinshipUsed,
  slips,
}: {
  readonly worth: Worth;
  readonly kinshipUsed: boolean;
  /** Whether any note looks like a slip. */
  readonly slips: boolean;
}): ReactNode {
  return (
    <ul className="how-legend">
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <circle className="estimate-dot" cx="11" cy="7" r="4.5" />
        </svg>
        {worth === 'parent'
          ? 'what it hands on as a parent, above or below the average; its seedlings get half of it on average'
          : 'the estimate of what it truly is'}
      </li>
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <line className="range-bar" x1="2" x2="20" y1="7" y2="7" />
        </svg>
        the truth lies in this range 8 times out of 10; ± is half of it
      </li>
      {worth === 'itself' && (
        <li>
          <svg width="22" height="14" aria-hidden="true">
            <circle className="ranking-mean" cx="11" cy="7" r="4" />
          </svg>
          the plain mean of its notes
        </li>
      )}
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <rect className="reliability-whole" x="0.5" y="2.5" width="21" height="9" rx="2" />
          <rect className="reliability-told" x="0.5" y="2.5" width="13" height="9" rx="2" />
        </svg>
        how much of what sets it apart its notes{kinshipUsed && ' and kin'} tell; at 100% all would be known
      </li>
      {slips && (
        <li>
          <span className="how-slip">
            <Icon name="heed" size={16} />
          </span>
          slip?: a note lies far from all others; it counts until somebody mends it
        </li>
      )}
    </ul>
  );
}

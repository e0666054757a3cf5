import type { EstimatesReport } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { shareSentences } from '../estimates/share-words.ts';
import { Button } from '../parts/button.tsx';
import { Lines } from '../parts/lines.tsx';
import { counted } from '../parts/words.ts';
import type { Worth } from './ranked.ts';
import { RankingLegend } from './ranking-legend.tsx';

interface BehindProps {
  readonly report: EstimatesReport;
  readonly worth: Worth;
  readonly folded: boolean;
  readonly busy: boolean;
  readonly onAgain: () => void;
}

/** What stands behind the numbers, in words for a breeder; the trait's own page tells all of it. */
export function BehindIt({ report, worth, folded, busy, onAgain }: BehindProps): ReactNode {
  const { trait, kinship } = report;
  const body = (
    <>
      <RankingLegend
        worth={worth}
        kinshipUsed={kinship.used}
        slips={report.estimates.some(({ slips }) => slips > 0)}
      />
      <p>
        {counted(report.genets, 'genet')} by {counted(report.notes, 'note')} of {yearsInWords(report.years)}.
        Tick two to hold them against each other.
      </p>
      <Lines title="To heed" lines={report.heed} />
      <Lines title="Parents, sibs and clones" lines={kinship.words} />
      <Lines title="How much of it is inborn" lines={shareSentences(report)} />
      <p>
        <Link to="/traits/$trait" params={{ trait: trait.code }}>
          How {trait.name} was worked out
        </Link>
        : what was taken into account, what could not be told apart, and bad spots in the beds.
      </p>
      <div>
        <Button disabled={busy} onClick={onAgain}>
          Work it out anew
        </Button>
      </div>
    </>
  );
  if (folded) {
    return (
      <details className="fold how">
        <summary>What stands behind it, and what to heed</summary>
        {body}
      </details>
    );
  }
  return (
    <section className="how" aria-labelledby="how">
      <h2 id="how">What stands behind it</h2>
      {body}
    </section>
  );
}

/** `2019 to 2026`, or the years that there are. */
function yearsInWords(years: readonly number[]): string {
  const [first, last] = [Math.min(...years), Math.max(...years)];
  if (years.length === 0) return 'no year';
  if (years.length === 1) return String(first);
  return last - first + 1 === years.length ? `${first} to ${last}` : [...years].sort().join(', ');
}

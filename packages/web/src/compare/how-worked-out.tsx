import type { EstimatesReport } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';
import { asPreciseAs, plainNumber } from '../parts/words.ts';
import type { TraitWriting } from './trait-shown.ts';

interface HowProps {
  readonly report: EstimatesReport;
  readonly writing: TraitWriting;
  readonly folded: boolean;
  readonly busy: boolean;
  readonly onAgain: () => void;
}

/** What stands behind the numbers, in words for a breeder. */
export function HowWorkedOut({ report, writing, folded, busy, onAgain }: HowProps): ReactNode {
  const body = (
    <>
      <Legend />
      <Lines title="Taken into account" lines={report.tookIntoAccount} />
      <Lines title="Could not be told apart" lines={report.couldNotSeparate} />
      <Lines title="To heed" lines={report.heed} />
      {report.repeatability && (
        <p>
          Of the differences among single notes,{' '}
          <strong>{Math.round(report.repeatability.value * 100)}%</strong>
          {report.repeatability.se !== null && ` (±${Math.round(report.repeatability.se * 100)})`} lie between
          genets; the rest is chance and circumstance.
        </p>
      )}
      <details className="fold">
        <summary>The parts of the variation</summary>
        <table className="variances">
          <thead>
            <tr>
              <th scope="col">Between</th>
              <th scope="col" className="number">
                Spread, {writing.unit ?? 'points'}
              </th>
            </tr>
          </thead>
          <tbody>
            {report.variances.map(({ term, words, estimate, se }) => {
              const spread = Math.sqrt(Math.max(0, estimate));
              return (
                <tr key={term}>
                  <th scope="row">{words}</th>
                  <td className="number">
                    {se === null
                      ? plainNumber(writing.span(spread))
                      : // The spread is a square root: its own doubt is that of the variance over twice the spread.
                        asPreciseAs(writing.span(spread), writing.span(spread > 0 ? se / (2 * spread) : 0))}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </details>
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
        <summary>How this was worked out, and what to heed</summary>
        {body}
      </details>
    );
  }
  return (
    <section className="how" aria-labelledby="how">
      <h2 id="how">How this was worked out</h2>
      {body}
    </section>
  );
}

function Lines({ title, lines }: { readonly title: string; readonly lines: readonly string[] }): ReactNode {
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul className="how-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

function Legend(): ReactNode {
  return (
    <ul className="how-legend">
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <circle className="ranking-estimate" cx="11" cy="7" r="4.5" />
        </svg>
        the estimate of what it truly is
      </li>
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <line className="ranking-range" x1="2" x2="20" y1="7" y2="7" />
        </svg>
        the truth lies in this range 8 times out of 10; ± is half of it
      </li>
      <li>
        <svg width="22" height="14" aria-hidden="true">
          <circle className="ranking-mean" cx="11" cy="7" r="4" />
        </svg>
        the plain mean of its notes
      </li>
    </ul>
  );
}

import type { EstimatesReport, GenetEstimate, InformationParts } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { useWorkedOut } from '../api/worked-out.ts';
import { numberLine } from '../compare/scale.ts';
import type { TraitWriting } from '../compare/trait-shown.ts';
import { capital } from '../parts/words.ts';
import { Working } from '../parts/working.tsx';
import { partBars } from './part-bars.ts';
import './where-from.css';

interface WhereProps {
  readonly report: EstimatesReport;
  readonly estimate: GenetEstimate;
  readonly writing: TraitWriting;
}

/** Where an estimate comes from: signed bars that lead from the garden's average to the estimate. */
export function WhereFrom({ report, estimate, writing }: WhereProps): ReactNode {
  const { code } = report.trait;
  const { result, work, again } = useWorkedOut<InformationParts>(
    ['information', code, estimate.id],
    'estimates/information',
    { trait: code, genet: estimate.id },
  );
  return (
    <div className="where-from">
      <Working work={work} words="Looking where it comes from" again={again} />
      {result && <Bars parts={result} estimate={estimate} writing={writing} />}
    </div>
  );
}

function Bars({
  parts,
  estimate,
  writing,
}: {
  readonly parts: InformationParts;
  readonly estimate: GenetEstimate;
  readonly writing: TraitWriting;
}): ReactNode {
  const bars = partBars(parts, estimate.effect).map((bar) => ({
    ...bar,
    start: writing.span(bar.start),
    end: writing.span(bar.end),
  }));
  const end = writing.span(estimate.effect);
  const line = numberLine([0, end, ...bars.flatMap((bar) => [bar.start, bar.end])], 4);
  const at = (value: number): string => `${(4 + line.at(value) * 92).toFixed(2)}%`;
  const apart = (value: number): string => writing.apart(value, estimate.se);
  return (
    <>
      <table>
        <caption className="for-readers-only">
          Parts that lead from the garden’s average to the estimate, in {writing.unit ?? 'its own points'}
        </caption>
        <thead>
          <tr>
            <th scope="col">From</th>
            <th scope="col" className="number">
              Notes
            </th>
            <th scope="col" className="where-picture">
              <span className="for-readers-only">Drawn from the average</span>
              <svg width="100%" height="16" aria-hidden="true">
                <text className="where-average" x={at(0)} y="12">
                  average
                </text>
              </svg>
            </th>
            <th scope="col" className="number">
              {writing.unit ?? 'Part'}
            </th>
          </tr>
        </thead>
        <tbody>
          {bars.map(({ from, words, notes, effect, start, end: to }) => (
            <tr key={from}>
              <th scope="row">{capital(words)}</th>
              <td className="number soft">{notes > 0 && notes.toLocaleString('en-US')}</td>
              <td className="where-picture">
                <svg width="100%" height="22" aria-hidden="true">
                  <line className="where-zero" x1={at(0)} x2={at(0)} y1="0" y2="22" />
                  <line
                    className={effect < 0 ? 'where-less' : 'where-more'}
                    x1={at(start)}
                    x2={at(to)}
                    y1="11"
                    y2="11"
                  />
                  <text x={at(Math.max(start, to))} dx="4" y="15">
                    {effect < 0 ? '−' : '+'}
                  </text>
                </svg>
              </td>
              <td className="number">{apart(effect)}</td>
            </tr>
          ))}
          <tr className="where-total">
            <th scope="row">Together, above or below the average genet</th>
            <td />
            <td className="where-picture">
              <svg width="100%" height="22" aria-hidden="true">
                <line className="where-zero" x1={at(0)} x2={at(0)} y1="0" y2="22" />
                <circle className="estimate-dot" cx={at(end)} cy="11" r="5" />
              </svg>
            </td>
            <td className="number">{apart(estimate.effect)}</td>
          </tr>
        </tbody>
      </table>
      <p className="small soft">
        Each bar begins where the one before it ended; one with a minus draws the estimate down.
        {parts.scale !== 'as noted' &&
          ' The sums were made on another scale; the whole distance is shared out in their proportion.'}
      </p>
    </>
  );
}

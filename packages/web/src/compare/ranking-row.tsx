import type { GenetEstimate } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { Line } from './scale.ts';
import type { TraitWriting } from './trait-shown.ts';

interface RowProps {
  readonly estimate: GenetEstimate;
  readonly rank: number;
  readonly line: Line;
  readonly writing: TraitWriting;
  /** The standard error by which numbers are rounded. */
  readonly usualSe: number;
  readonly held: boolean;
  readonly onHold: () => void;
  readonly index: number;
  readonly start: number;
  readonly height: number;
}

/** One genet: a bar for the range, a full mark for the estimate, a hollow one for the plain mean of its notes. */
export function RankingRow({
  estimate,
  rank,
  line,
  writing,
  usualSe,
  held,
  onHold,
  ...place
}: RowProps): ReactNode {
  const at = (value: number): string => `${(line.at(writing.toShown(value)) * 100).toFixed(2)}%`;
  const shown = (value: number): string => writing.value(value, usualSe);
  return (
    <tr
      aria-rowindex={place.index + 2}
      className={[held && 'ranking-held', estimate.standard && 'ranking-standard'].filter(Boolean).join(' ')}
      style={{ transform: `translateY(${place.start}px)`, height: place.height }}
    >
      <td className="soft ranking-rank">{rank}</td>
      <th scope="row">
        <Link to="/plants/$genet" params={{ genet: estimate.code }} preload={false}>
          {estimate.code}
        </Link>
        {estimate.name && <span className="ranking-name"> {estimate.name}</span>}
        {estimate.standard && <span className="standard-mark">standard</span>}
      </th>
      <td className="ranking-picture">
        <svg width="100%" height="20" aria-hidden="true">
          {line.ticks.map((tick) => (
            <line
              key={tick}
              className="ranking-tick"
              x1={`${line.at(tick) * 100}%`}
              x2={`${line.at(tick) * 100}%`}
              y1="0"
              y2="20"
            />
          ))}
          <line className="ranking-range" x1={at(estimate.low)} x2={at(estimate.high)} y1="10" y2="10" />
          {estimate.mean !== null && <MeanMark at={line.at(writing.toShown(estimate.mean))} />}
          <circle className="ranking-estimate" cx={at(estimate.estimate)} cy="10" r="4.5" />
        </svg>
        <span className="for-readers-only">
          {shown(estimate.low)} to {shown(estimate.high)}
          {estimate.mean !== null && `, plain mean ${shown(estimate.mean)}`}
        </span>
      </td>
      <td className="number ranking-value">
        {shown(estimate.estimate)}{' '}
        <span className="soft small">± {writing.halfRange(estimate.se, usualSe)}</span>
      </td>
      <td
        className="number small soft ranking-notes"
        title={`${estimate.years} years, ${estimate.plants} plants`}
      >
        {estimate.notes}
      </td>
      <td className="ranking-hold">
        <label className="ticked">
          <input
            type="checkbox"
            checked={held}
            onChange={onHold}
            aria-label={`Hold ${estimate.code} against another`}
          />
        </label>
      </td>
    </tr>
  );
}

/** The plain mean; one that lies beyond the line is shown as an arrow at its end. */
function MeanMark({ at }: { readonly at: number }): ReactNode {
  if (at >= 0 && at <= 1) return <circle className="ranking-mean" cx={`${at * 100}%`} cy="10" r="4" />;
  return (
    <svg aria-hidden="true" x={at < 0 ? 0 : '100%'} y="5" overflow="visible">
      <path className="ranking-mean" d={at < 0 ? 'M0 0L-6 5L0 10Z' : 'M0 0L6 5L0 10Z'} />
    </svg>
  );
}

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
  readonly held: boolean;
  readonly onHold: () => void;
  readonly index: number;
  readonly start: number;
  readonly height: number;
}

/** One genet: a bar for the range, a full mark for the estimate, a hollow one for the plain mean of its notes. */
export function RankingRow({ estimate, rank, line, writing, held, onHold, ...place }: RowProps): ReactNode {
  const at = (value: number): string => `${(line.at(writing.toShown(value)) * 100).toFixed(2)}%`;
  const { se } = estimate;
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
          {estimate.mean !== null && <circle className="ranking-mean" cx={at(estimate.mean)} cy="10" r="4" />}
          <circle className="ranking-estimate" cx={at(estimate.estimate)} cy="10" r="4.5" />
        </svg>
        <span className="for-readers-only">
          {writing.value(estimate.low, se)} to {writing.value(estimate.high, se)}
          {estimate.mean !== null && `, plain mean ${writing.value(estimate.mean, se)}`}
        </span>
      </td>
      <td className="number ranking-value">
        {writing.value(estimate.estimate, se)} <span className="soft small">± {writing.halfRange(se)}</span>
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

import type { EstimatesReport } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { inbredBeyond } from '../estimates/inbred-beyond.ts';
import { Reliability } from '../estimates/reliability.tsx';
import { tellsInWords } from '../estimates/reliability-words.ts';
import { SlipSign } from '../estimates/slip-sign.tsx';
import { chanceShown } from './pair-words.ts';
import type { Ranked, Worth } from './ranked.ts';
import type { Line } from './scale.ts';
import type { TraitWriting } from './trait-shown.ts';

interface RowProps {
  readonly row: Ranked;
  readonly report: EstimatesReport;
  readonly worth: Worth;
  readonly line: Line;
  readonly writing: TraitWriting;
  /** The standard error by which numbers are rounded. */
  readonly usualSe: number;
  /** Chance to be among the best k, where it was asked for. */
  readonly best: { readonly k: number; readonly chance: number | null } | null;
  readonly held: boolean;
  readonly onHold: () => void;
  readonly index: number;
  readonly start: number;
  readonly height: number;
}

/** One genet: a bar for the range, a full mark for the estimate, a hollow one for the plain mean of its notes. */
export function RankingRow({ row, report, worth, best, held, onHold, ...rest }: RowProps): ReactNode {
  const { estimate, rank } = row;
  const { line, writing, usualSe, ...place } = rest;
  const at = (value: number): string => `${(line.at(value) * 100).toFixed(2)}%`;
  const told = tellsInWords(estimate, report.kinship, row.reliability);
  const inbred = inbredBeyond(estimate.inbreeding, report.kinship.gamma);
  const slip = estimate.slips > 0 && <SlipSign trait={report.trait.code} slips={estimate.slips} short />;
  const classes = [
    held && 'ranking-held',
    estimate.standard && 'ranking-standard',
    estimate.notes === 0 && 'ranking-unnoted',
    estimate.slips > 0 && 'ranking-slipped',
  ];
  return (
    <tr
      aria-rowindex={place.index + 2}
      className={classes.filter(Boolean).join(' ')}
      style={{ transform: `translateY(${place.start}px)`, height: place.height }}
    >
      <td className="soft ranking-rank">{rank}</td>
      <th scope="row">
        <Link to="/plants/$genet" params={{ genet: estimate.code }} preload={false}>
          {estimate.code}
        </Link>
        {estimate.name && <span className="ranking-name">{estimate.name}</span>}
        {estimate.standard && <span className="standard-mark">standard</span>}
        {inbred >= 0.005 && (
          <span
            className="ranking-inbred soft"
            title="Chance that its two copies of a gene come from one and the same ancestor"
          >
            inbred {Math.round(inbred * 100)}%
          </span>
        )}
        {slip && <span className="ranking-slip">{slip}</span>}
      </th>
      <td className="ranking-picture">
        <svg width="100%" height="20" aria-hidden="true">
          {line.ticks.map((tick) => (
            <line key={tick} className="ranking-tick" x1={at(tick)} x2={at(tick)} y1="0" y2="20" />
          ))}
          <line className="range-bar" x1={at(row.low)} x2={at(row.high)} y1="10" y2="10" />
          {row.mean !== null && <MeanMark at={line.at(row.mean)} />}
          <circle className="estimate-dot" cx={at(row.value)} cy="10" r="4.5" />
        </svg>
        <span className="for-readers-only">{rangeInWords(row, worth, writing, usualSe)}</span>
      </td>
      <td className="number ranking-value">
        <Value row={row} report={report} worth={worth} writing={writing} usualSe={usualSe} />
      </td>
      <td className="ranking-told small">
        <Reliability value={row.reliability} words={told} />
        <span className="ranking-told-words" aria-hidden="true">
          {told}
        </span>
        {slip && <span className="ranking-slip-below">{slip}</span>}
      </td>
      {best && (
        <td className="number small ranking-best">
          {best.chance === null ? '–' : chanceShown(best.chance)}
          <span className="ranking-best-words"> among the best {best.k}</span>
        </td>
      )}
      <td
        className="number small soft ranking-notes"
        title={`${estimate.years} years, ${estimate.plants} plants`}
      >
        {estimate.notes === 0 ? 'none' : estimate.notes}
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

type Written = Pick<RowProps, 'row' | 'report' | 'worth' | 'writing' | 'usualSe'>;

/** The number, with half its range where that reaches as far to either side, else with both ends. */
function Value({ row: { estimate }, report, worth, writing, usualSe }: Written): ReactNode {
  const { breeding } = estimate;
  if (worth === 'parent' && breeding) {
    return (
      <>
        {writing.apart(breeding.effect, usualSe)}{' '}
        <span className="soft small">± {writing.halfRange(breeding, usualSe)}</span>
      </>
    );
  }
  return (
    <>
      {writing.value(estimate.estimate, usualSe)}{' '}
      <span className="soft small">
        {report.scale.name === 'as noted'
          ? `± ${writing.halfRange(estimate, usualSe)}`
          : `(${writing.range(estimate.low, estimate.high, usualSe).replace(' to ', '–')})`}
      </span>
    </>
  );
}

function rangeInWords({ estimate }: Ranked, worth: Worth, writing: TraitWriting, usualSe: number): string {
  const { breeding, mean } = estimate;
  if (worth === 'parent' && breeding)
    return `${writing.apart(breeding.low, usualSe)} to ${writing.apart(breeding.high, usualSe)}`;
  const range = writing.range(estimate.low, estimate.high, usualSe);
  return mean === null ? range : `${range}, plain mean ${writing.value(mean, usualSe)}`;
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

import type { EstimatesReport, GenetEstimate, TraitShown } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import { type ReactNode, useId, useMemo, useState } from 'react';
import { numberLine } from '../compare/scale.ts';
import { type TraitWriting, traitWriting } from '../compare/trait-shown.ts';
import { Reliability } from '../estimates/reliability.tsx';
import { tellsInWords } from '../estimates/reliability-words.ts';
import { SlipSign } from '../estimates/slip-sign.tsx';
import { Button } from '../parts/button.tsx';
import { Icon } from '../parts/icon.tsx';
import { useUnits } from '../parts/measure.ts';
import { WhereFrom } from './where-from.tsx';

interface RowProps {
  readonly genet: string;
  readonly trait: TraitShown;
  readonly report: EstimatesReport;
}

/** One trait of one genet: its estimate with the range, among all genets of the garden, and how much of it is told. */
export function EstimateRow({ genet, trait, report }: RowProps): ReactNode {
  const units = useUnits();
  const id = useId();
  const [open, setOpen] = useState(false);
  const writing = useMemo(() => traitWriting(report.trait, units), [report.trait, units]);
  const noted = useMemo(() => report.estimates.filter(({ notes }) => notes > 0), [report]);
  const estimate = report.estimates.find((one) => one.id === genet);
  const name = (
    <Link to="/traits/$trait" params={{ trait: trait.code }} className="estimate-name">
      {trait.name}
    </Link>
  );
  if (!estimate) {
    return (
      <li className="estimate-row">
        {name}
        <span className="soft estimate-none">
          {report.estimates.length === 0
            ? (report.couldNotSeparate[0] ?? 'cannot be told from these notes')
            : 'neither noted nor kin of a noted one'}
        </span>
      </li>
    );
  }
  const told = tellsInWords(estimate, report.kinship, estimate.reliability);
  return (
    <li className="estimate-row">
      <span className="estimate-of">
        {name} <SlipSign trait={trait.code} slips={estimate.slips} />
      </span>
      <span className="estimate-value">
        <strong>{writing.value(estimate.estimate, estimate.se)}</strong>
        {!writing.isDay && writing.unit && ` ${writing.unit}`}{' '}
        <span className="soft small">{writing.range(estimate.low, estimate.high, estimate.se)}</span>
      </span>
      <AmongAll estimate={estimate} noted={noted} writing={writing} />
      <span className="small estimate-rank">
        {writing.isDay ? 'later' : 'more'} than {shareBelow(noted, estimate)}
      </span>
      <span className="small estimate-told">
        <Reliability value={estimate.reliability} words={told} />{' '}
        <span aria-hidden="true" className="soft">
          {told.replace(/ tell .*$/, '')}
        </span>
      </span>
      <Button look="quiet" aria-expanded={open} aria-controls={id} onClick={() => setOpen((now) => !now)}>
        <Icon name={open ? 'down' : 'right'} size={16} />
        Where from<span className="for-readers-only">, {trait.name}</span>
      </Button>
      <div id={id} className="estimate-from" hidden={!open}>
        {open && <WhereFrom report={report} estimate={estimate} writing={writing} />}
      </div>
    </li>
  );
}

/** How many of the other noted genets have less: `71%`. */
function shareBelow(noted: readonly GenetEstimate[], { id, estimate }: GenetEstimate): string {
  const others = noted.filter((one) => one.id !== id);
  const less = others.filter((one) => one.estimate < estimate).length;
  return `${Math.round((100 * less) / Math.max(1, others.length))}%`;
}

/** The estimate and its range on the line from the least to the most of all noted genets; every tenth part is ticked. */
function AmongAll({
  estimate,
  noted,
  writing,
}: {
  readonly estimate: GenetEstimate;
  readonly noted: readonly GenetEstimate[];
  readonly writing: TraitWriting;
}): ReactNode {
  const { line, tenths } = useMemo(() => {
    const values = noted.map((one) => writing.toShown(one.estimate)).sort((a, b) => a - b);
    const own = [estimate.low, estimate.high].map(writing.toShown);
    return {
      line: numberLine([...values, ...own], 4),
      tenths: [1, 3, 5, 7, 9].map((tenth) => values[Math.floor((values.length * tenth) / 10)]),
    };
  }, [noted, estimate, writing]);
  const at = (value: number): string => `${(2 + line.at(value) * 96).toFixed(2)}%`;
  const middle = tenths[2];
  return (
    <span className="estimate-picture">
      <svg width="100%" height="22" aria-hidden="true">
        <line className="estimate-line" x1="2%" x2="98%" y1="11" y2="11" />
        {tenths.map(
          (value, index) =>
            value !== undefined && (
              <line
                // Fixed places in a fixed list.
                key={[10, 30, 50, 70, 90][index]}
                className={index === 2 ? 'estimate-middle' : 'estimate-tenth'}
                x1={at(value)}
                x2={at(value)}
                y1={index === 2 ? 1 : 7}
                y2={index === 2 ? 21 : 15}
              />
            ),
        )}
        <line
          className="range-bar"
          x1={at(writing.toShown(estimate.low))}
          x2={at(writing.toShown(estimate.high))}
          y1="11"
          y2="11"
        />
        <circle className="estimate-dot" cx={at(writing.toShown(estimate.estimate))} cy="11" r="5" />
      </svg>
      {middle !== undefined && (
        <span className="for-readers-only">the middle one of the garden has {writing.tick(middle)}</span>
      )}
    </span>
  );
}

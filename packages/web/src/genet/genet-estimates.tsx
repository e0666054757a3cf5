import type { EstimatesReport, TraitShown, TraitSummary } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { useKept } from '../api/worked-out.ts';
import { useReport } from '../estimates/report.ts';
import { Button } from '../parts/button.tsx';
import { usePhone } from '../parts/use-media.ts';
import { counted } from '../parts/words.ts';
import { Working } from '../parts/working.tsx';
import { isNotedElsewhere } from '../traits/noted-elsewhere.tsx';
import { EstimateRow } from './estimate-row.tsx';
import '../estimates/marks.css';
import './genet-estimates.css';

/**
 * What a genet truly is, trait by trait. Each trait is worked out after the other; what another screen has worked out
 * already is shown at once. A phone waits until it is asked, as every report is of all genets.
 */
export function GenetEstimates({
  genet,
  noted,
}: {
  readonly genet: string;
  readonly noted: readonly TraitSummary[];
}): ReactNode {
  const phone = usePhone();
  const traits = useQuery(traitsQuery);
  const [asked, setAsked] = useState(false);
  const [others, setOthers] = useState(false);
  const own = new Set(noted.map(({ trait }) => trait));
  const all = (traits.data ?? []).filter(
    (trait) => trait.estimable && trait.notes > 0 && !isNotedElsewhere(trait),
  );
  const [first, rest] = [all.filter(({ code }) => own.has(code)), all.filter(({ code }) => !own.has(code))];
  const shown = others || first.length === 0 ? [...first, ...rest] : first;
  const kept = useKept<EstimatesReport>(shown.map(({ code }) => ['estimates', code]));
  const begun = asked || !phone;

  if (all.length === 0) return <p className="soft">No trait that can be estimated was noted yet.</p>;
  const rows = shown.map((trait, index) => ({ trait, report: kept[index]?.result ?? null }));
  const told = rows.filter(({ report }) => report?.estimates.some(({ id }) => id === genet)).length;
  return (
    <>
      {begun && (
        <InTurn waiting={shown.filter((_, index) => !kept[index]?.current)} done={told} of={shown.length} />
      )}
      <ul className="genet-estimates">
        {rows.map(
          ({ trait, report }) =>
            report && <EstimateRow key={trait.code} genet={genet} trait={trait} report={report} />,
        )}
      </ul>
      {told > 0 && (
        <p className="small soft">
          Each line holds all noted genets of the garden: the dashed mark is the middle one, the small ones
          are tenths. The truth lies in the bar 8 times out of 10. What follows says how many others have
          less, and how much of what sets this one apart is told, and by whom.
        </p>
      )}
      <div className="genet-estimates-more">
        {!begun && <Button onClick={() => setAsked(true)}>Work out {counted(shown.length, 'trait')}</Button>}
        {!others && first.length > 0 && rest.length > 0 && (
          <Button onClick={() => setOthers(true)}>
            {counted(rest.length, 'more trait')}, by its kin alone
          </Button>
        )}
      </div>
    </>
  );
}

/** Works out one trait after another; a trait that cannot be worked out is told and passed over. */
function InTurn({
  waiting,
  done,
  of,
}: {
  readonly waiting: readonly TraitShown[];
  readonly done: number;
  readonly of: number;
}): ReactNode {
  const [passed, setPassed] = useState<readonly string[]>([]);
  const next = waiting.find(({ code }) => !passed.includes(code));
  const { work, again } = useReport(next?.code ?? '', next !== undefined);
  if (!next) return null;
  const pass = (): void => setPassed((now) => [...now, next.code]);
  return (
    <>
      <Working work={work} words={`${next.name} (${done} of ${of} done)`} again={again} />
      {!work.busy && (work.error !== null || work.state?.state === 'stopped') && (
        <div>
          <Button look="quiet" onClick={pass}>
            Pass over {next.name}
          </Button>
        </div>
      )}
    </>
  );
}

import type { EstimatesReport } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useEffect, useState } from 'react';
import { useWork } from '../api/jobs.ts';
import { traitsQuery } from '../api/queries.ts';
import { Button } from '../parts/button.tsx';
import { InlineField } from '../parts/field.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem, Progress } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import './compare.css';
import { keepReport, keptReport } from './kept-reports.ts';
import { Ranking } from './ranking.tsx';

const route = getRouteApi('/compare');

export function Compare(): ReactNode {
  const { trait } = route.useSearch();
  const navigate = route.useNavigate();
  const traits = useQuery(traitsQuery);
  const estimable = (traits.data ?? []).filter((one) => one.estimable);
  const known = estimable.find(({ code }) => code === trait);
  return (
    <Page
      fills
      title="Compare"
      line="Which plants truly are better, and how sure that is."
      controls={
        estimable.length > 0 && (
          <InlineField label="Rank by">
            {(id) => (
              <select
                id={id}
                value={known?.code ?? ''}
                onChange={(event) => void navigate({ search: { trait: event.target.value || undefined } })}
              >
                <option value="">choose a trait</option>
                {estimable.map(({ code, name, notes }) => (
                  <option key={code} value={code}>
                    {name} ({counted(notes, 'note')})
                  </option>
                ))}
              </select>
            )}
          </InlineField>
        )
      }
    >
      {traits.error ? (
        <Problem error={traits.error} again={() => void traits.refetch()} />
      ) : !traits.data ? (
        <Loading what="Fetching the traits" />
      ) : known ? (
        <Estimates key={known.code} trait={known.code} />
      ) : estimable.length === 0 ? (
        <Nothing title="No trait can be ranked yet">
          <p>
            Ranking needs notes of something that was measured, counted, scored or dated.{' '}
            <Link to="/import">Bring in a file with values</Link> or <Link to="/notes">take notes</Link>.
          </p>
        </Nothing>
      ) : (
        <Nothing title="By what shall they be ranked?">
          <p>
            Notes differ by year, by bed and by chance. What is left when these are taken into account is what
            a plant truly is, as far as the notes can tell; each estimate is shown with its doubt.
          </p>
          <ul className="trait-choices">
            {estimable.map(({ code, name, notes }) => (
              <li key={code}>
                <Link to="/compare" search={{ trait: code }} className="button button-plain">
                  {name} <span className="soft small">{notes.toLocaleString('en-US')}</span>
                </Link>
              </li>
            ))}
          </ul>
        </Nothing>
      )}
    </Page>
  );
}

function Estimates({ trait }: { readonly trait: string }): ReactNode {
  const [report, setReport] = useState<EstimatesReport | null>(() => keptReport(trait));
  const work = useWork<EstimatesReport>((result) => {
    keepReport(trait, result);
    setReport(result);
  });
  const { begin } = work;
  useEffect(() => {
    if (!keptReport(trait)) begin('estimates', { trait });
  }, [trait, begin]);
  const again = (): void => begin('estimates', { trait });

  return (
    <>
      {work.busy && (
        <div className="compare-work">
          <Progress share={work.state?.progress ?? null} words={work.state?.step || 'Working it out'} />
          <Button onClick={work.stop}>Stop</Button>
        </div>
      )}
      {work.error !== null && <Problem error={work.error} again={again} />}
      {work.state?.state === 'stopped' && !work.busy && (
        <p className="compare-work">
          Stopped. <Button onClick={again}>Work it out</Button>
        </p>
      )}
      {report && report.estimates.length === 0 && (
        <Nothing title="There is nothing to rank">
          {[...report.couldNotSeparate, ...report.heed].map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Nothing>
      )}
      {report && report.estimates.length > 0 && <Ranking report={report} onAgain={again} busy={work.busy} />}
    </>
  );
}

import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { useReport } from '../estimates/report.ts';
import { InlineField } from '../parts/field.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { Working } from '../parts/working.tsx';
import { isNotedElsewhere, NotedElsewhere } from '../traits/noted-elsewhere.tsx';
import './compare.css';
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
        <>
          {estimable.length > 0 && (
            <InlineField label="Rank by">
              {(id) => (
                <select
                  id={id}
                  value={known?.code ?? ''}
                  onChange={(event) =>
                    void navigate({ search: (now) => ({ ...now, trait: event.target.value || undefined }) })
                  }
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
          )}
          <Link to="/winters">How they come through winters</Link>
        </>
      }
    >
      {traits.error ? (
        <Problem error={traits.error} again={() => void traits.refetch()} />
      ) : !traits.data ? (
        <Loading what="Fetching the traits" />
      ) : known && isNotedElsewhere(known) ? (
        <NotedElsewhere trait={known} />
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
  const { result: report, work, again } = useReport(trait);
  return (
    <>
      <Working work={work} words="Working it out" again={again} />
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

import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { bedsQuery } from '../api/queries.ts';
import { InlineField } from '../parts/field.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { BedList } from './bed-list.tsx';
import './beds.css';
import { GardenPlan } from './garden-plan.tsx';
import { isMeasured } from './geometry.ts';

const route = getRouteApi('/beds');

export function Beds(): ReactNode {
  const plan = useQuery(bedsQuery);
  const { site: wanted } = route.useSearch();
  const navigate = route.useNavigate();
  const sites = plan.data?.sites ?? [];
  const site = sites.find(({ code }) => code === wanted)?.code ?? sites[0]?.code;
  const beds = (plan.data?.beds ?? []).filter(
    (bed) => sites.length < 2 || bed.site === site || bed.site === null,
  );
  const measured = beds.filter(isMeasured);
  const others = beds.filter((bed) => !isMeasured(bed));
  return (
    <Page
      title="Beds"
      line="What stands where, drawn to scale."
      controls={
        sites.length > 1 && (
          <InlineField label="Site">
            {(id) => (
              <select
                id={id}
                value={site}
                onChange={(event) => void navigate({ search: { site: event.target.value }, replace: true })}
              >
                {sites.map(({ code, name }) => (
                  <option key={code} value={code}>
                    {name ?? code}
                  </option>
                ))}
              </select>
            )}
          </InlineField>
        )
      }
    >
      {plan.error ? (
        <Problem error={plan.error} again={() => void plan.refetch()} />
      ) : !plan.data ? (
        <Loading what="Fetching the beds" />
      ) : beds.length === 0 ? (
        <Nothing title="No bed yet">
          <p>
            <Link to="/programme/$kind" params={{ kind: 'places' }}>
              Add the beds by hand
            </Link>{' '}
            or <Link to="/import">bring them in from a file</Link>. With corner, length and width in metres
            they are drawn.
          </p>
        </Nothing>
      ) : (
        <>
          {measured.length > 0 && <GardenPlan beds={measured} />}
          {others.length > 0 && (
            <section aria-labelledby="unmeasured" className="beds-others">
              <h2 id="unmeasured">{measured.length > 0 ? 'Never measured' : 'The beds'}</h2>
              <p className="soft">
                Beds without corner, length and width are listed; give their measures under{' '}
                <Link to="/programme/$kind" params={{ kind: 'places' }}>
                  places
                </Link>{' '}
                to have them drawn.
              </p>
              <BedList beds={others} />
            </section>
          )}
          {measured.length > 0 && (
            <details className="fold">
              <summary>The same beds as a list</summary>
              <BedList beds={measured} />
            </details>
          )}
        </>
      )}
    </Page>
  );
}

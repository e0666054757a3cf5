import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { Button } from '../parts/button.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { dateInWords } from '../parts/words.ts';
import { RecordSheet } from '../records/record-sheet.tsx';
import './briefs.css';
import { LimitList } from './limit-list.tsx';
import { Match } from './match.tsx';
import { useBriefs, useLimits } from './queries.ts';

const route = getRouteApi('/briefs/$brief');

/** One brief: what it asks, and every plant held against it. */
export function Brief(): ReactNode {
  const { brief: code } = route.useParams();
  const briefs = useBriefs();
  const limits = useLimits(code);
  const traits = useQuery(traitsQuery);
  const [changing, setChanging] = useState(false);
  const brief = briefs.data?.rows.find((row) => row.code === code);
  const error = briefs.error ?? limits.error ?? traits.error;
  const back = <Link to="/briefs">All briefs</Link>;

  if (error || !briefs.data || !limits.data || !traits.data) {
    return (
      <Page title={code} line={back}>
        {error ? (
          <Problem
            error={error}
            again={() => {
              for (const query of [briefs, limits, traits]) if (query.error) void query.refetch();
            }}
          />
        ) : (
          <Loading what="Fetching the brief" />
        )}
      </Page>
    );
  }
  if (!brief) {
    return (
      <Page title={code} line={back}>
        <Nothing title={`No brief has the code ${code}`}>
          <p>It may have been withdrawn, or it is a slip of the pen.</p>
        </Nothing>
      </Page>
    );
  }
  return (
    <Page
      title={String(brief.name)}
      line={
        <>
          {typeof brief.aim === 'string' && `${brief.aim} · `}
          {typeof brief.closed_on === 'string' && `closed ${dateInWords(brief.closed_on)} · `}
          {back}
        </>
      }
      actions={<Button onClick={() => setChanging(true)}>Change</Button>}
    >
      <div className="brief">
        <section aria-labelledby="limits" className="brief-limits">
          <h2 id="limits">What it has to be</h2>
          <LimitList brief={code} limits={limits.data} traits={traits.data} />
        </section>
        <section aria-labelledby="match" className="brief-match">
          <h2 id="match">Who comes close</h2>
          {limits.data.length === 0 ? (
            <p className="soft">Give the brief a limit first: then every plant is held against it.</p>
          ) : (
            <Match brief={code} limits={limits.data} />
          )}
        </section>
      </div>
      {changing && <RecordSheet kind="briefs" row={brief} label={code} onClose={() => setChanging(false)} />}
    </Page>
  );
}

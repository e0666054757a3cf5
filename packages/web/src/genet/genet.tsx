import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useState } from 'react';
import { ApiError } from '../api/api-error.ts';
import { genetQuery } from '../api/queries.ts';
import { FamilyWithEstimates } from '../family/family-with-estimates.tsx';
import { Button } from '../parts/button.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { Decisions } from './decisions.tsx';
import './genet.css';
import { GenetEstimates } from './genet-estimates.tsx';
import { GenetHeading } from './genet-heading.tsx';
import { GenetPictures } from './genet-pictures.tsx';
import { GenetPlants } from './genet-plants.tsx';
import { NotesByTrait } from './notes-by-trait.tsx';
import { TermsAndCautions } from './terms-and-cautions.tsx';

const ChangeGenet = lazy(() => import('./change-genet.tsx'));
const History = lazy(() => import('../records/history.tsx').then((module) => ({ default: module.History })));
const route = getRouteApi('/plants/$genet');

export function Genet(): ReactNode {
  const { genet: code } = route.useParams();
  const page = useQuery(genetQuery(code));
  const [changing, setChanging] = useState(false);
  const [history, setHistory] = useState(false);

  if (page.error) {
    const unknown = page.error instanceof ApiError && page.error.status === 404;
    return (
      <Page title={code}>
        {unknown ? (
          <Nothing title={`No genet has the code ${code}`}>
            <p>
              It may be a slip of the pen. <Link to="/plants">Search the plants</Link>.
            </p>
          </Nothing>
        ) : (
          <Problem error={page.error} again={() => void page.refetch()} />
        )}
      </Page>
    );
  }
  if (!page.data) {
    return (
      <Page title={code}>
        <Loading what="Fetching what is known of it" />
      </Page>
    );
  }
  const { genet, plants, family, noteSummary, decisions, terms, cautions } = page.data;
  return (
    <Page
      title={genet.name ? `${genet.code} · ${genet.name}` : genet.code}
      line={<GenetHeading genet={genet} />}
      actions={<Button onClick={() => setChanging(true)}>Change</Button>}
    >
      <div className="genet">
        <section aria-labelledby="parentage" className="genet-family">
          <h2 id="parentage">Parents and progeny</h2>
          {family.members.length > 1 ? (
            <FamilyWithEstimates family={family} />
          ) : (
            <p className="soft">Nothing is known of its parents, and nothing was raised from it.</p>
          )}
        </section>
        <section aria-labelledby="estimates-of" className="genet-wide">
          <h2 id="estimates-of">What it truly is</h2>
          <GenetEstimates genet={genet.id} noted={noteSummary} />
        </section>
        <section aria-labelledby="notes-of">
          <h2 id="notes-of">Notes</h2>
          <NotesByTrait traits={noteSummary} />
        </section>
        <div className="genet-side">
          <TermsAndCautions terms={terms} cautions={cautions} />
          <section aria-labelledby="plants-of">
            <h2 id="plants-of">Its plants</h2>
            <GenetPlants genet={genet.code} plants={plants} />
          </section>
          <section aria-labelledby="decisions-of">
            <h2 id="decisions-of">Decisions</h2>
            <Decisions genet={genet.code} decisions={decisions} />
          </section>
        </div>
        <GenetPictures genet={genet.id} code={genet.code} />
        <details className="fold genet-history" onToggle={(event) => setHistory(event.currentTarget.open)}>
          <summary>History of this record</summary>
          {history && (
            <Suspense fallback={<Loading what="Fetching the history" />}>
              <History kind="genets" id={genet.id} />
            </Suspense>
          )}
        </details>
      </div>
      {changing && (
        <Suspense>
          <ChangeGenet id={genet.id} row={genet.record} onClose={() => setChanging(false)} />
        </Suspense>
      )}
    </Page>
  );
}

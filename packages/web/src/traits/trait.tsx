import type { TraitModel } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useEffect } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { useWorkedOut } from '../api/worked-out.ts';
import { Lines } from '../parts/lines.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { Working } from '../parts/working.tsx';
import { ModelTerms } from './model-terms.tsx';
import { isNotedElsewhere, NotedElsewhere } from './noted-elsewhere.tsx';
import { Residuals } from './residuals.tsx';
import { Slips } from './slips.tsx';
import './trait.css';
import { TraitFigures } from './trait-figures.tsx';
import { Variation } from './variation.tsx';

const route = getRouteApi('/traits/$trait');

/** How the estimates of one trait were worked out, and whether they are to be trusted. */
export function Trait(): ReactNode {
  const { trait: code } = route.useParams();
  const traits = useQuery(traitsQuery);
  const known = traits.data?.find((one) => one.code === code);
  return (
    <Page
      title={known?.name ?? code}
      line="How its estimates are worked out, and where its notes go astray."
      actions={
        known?.estimable &&
        !isNotedElsewhere(known) && (
          <Link to="/compare" search={{ trait: code }} className="button button-plain">
            Rank the genets by it
          </Link>
        )
      }
    >
      {traits.error ? (
        <Problem error={traits.error} again={() => void traits.refetch()} />
      ) : !traits.data ? (
        <Loading what="Fetching the traits" />
      ) : known?.estimable && isNotedElsewhere(known) ? (
        <NotedElsewhere trait={known} />
      ) : known?.estimable ? (
        <Model key={code} trait={code} />
      ) : (
        <Nothing title={known ? `${known.name} is not put on a number line` : `There is no trait ${code}`}>
          <p>
            {known ? 'Only what is measured, counted, scored or dated can be estimated.' : ''}{' '}
            <Link to="/compare">Choose a trait to rank by</Link>.
          </p>
        </Nothing>
      )}
    </Page>
  );
}

function Model({ trait }: { readonly trait: string }): ReactNode {
  const { result, work, again } = useWorkedOut<TraitModel>(['model', trait], 'estimates/model', { trait });
  const shown = result !== null;
  // The list of slips, where a sign beside an estimate leads to, stands only once the model is worked out.
  useEffect(() => {
    if (shown && location.hash === '#slips') document.getElementById('slips')?.scrollIntoView();
  }, [shown]);
  return (
    <>
      <Working work={work} words="Fitting the model" again={again} />
      {result && result.report.variances.length === 0 && (
        <Nothing title="Nothing can be estimated from its notes">
          {[...result.report.couldNotSeparate, ...result.report.heed].map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Nothing>
      )}
      {result && result.report.variances.length > 0 && (
        <div className="trait-page">
          <section aria-labelledby="figures">
            <h2 id="figures">What the notes tell</h2>
            <TraitFigures report={result.report} />
            <Lines title="To heed" lines={result.report.heed} />
          </section>
          <section aria-labelledby="variation">
            <h2 id="variation">Where the differences among notes come from</h2>
            <Variation report={result.report} />
          </section>
          <section aria-labelledby="terms" className="trait-wide">
            <h2 id="terms">What was taken into account, and what could not be</h2>
            <ModelTerms model={result} />
          </section>
          {result.residuals.length > 0 && (
            <>
              <section aria-labelledby="slips" className="trait-wide">
                <h2 id="slips">Notes that may be slips</h2>
                <Slips model={result} />
              </section>
              <section aria-labelledby="residuals" className="trait-wide">
                <h2 id="residuals">Good and bad spots in the beds</h2>
                <Residuals model={result} />
              </section>
            </>
          )}
        </div>
      )}
    </>
  );
}

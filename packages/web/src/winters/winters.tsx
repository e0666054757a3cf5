import type { WintersReport } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { useWorkedOut } from '../api/worked-out.ts';
import { Button } from '../parts/button.tsx';
import { Lines } from '../parts/lines.tsx';
import { measureOf, useUnits } from '../parts/measure.ts';
import { Page } from '../parts/page.tsx';
import { Nothing } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { Working } from '../parts/working.tsx';
import { ByCold } from './by-cold.tsx';
import { Origins } from './origins.tsx';
import { WinterGenets } from './winter-genets.tsx';
import { WinterTable } from './winter-table.tsx';
import { oddsSentence } from './winter-words.ts';
import './winters.css';

/** Which plants come through winters, by cold, by origin and genet by genet. */
export function Winters(): ReactNode {
  const units = useUnits();
  // Its sentences speak the programme's units.
  const { result, work, again } = useWorkedOut<WintersReport>(['winters', units], 'estimates/winters', {});
  return (
    <Page
      title="Winters"
      line="Which plants come through, and what cold does."
      actions={
        <Link to="/compare" className="button button-plain">
          Rank by a trait
        </Link>
      }
    >
      <Working work={work} words="Working it out" again={again} />
      {result && (result.origins.length === 0 ? <TooFew report={result} /> : <Told report={result} />)}
      {result && (
        <div>
          <Button disabled={work.busy} onClick={again}>
            Work it out anew
          </Button>
        </div>
      )}
    </Page>
  );
}

function TooFew({ report }: { readonly report: WintersReport }): ReactNode {
  return (
    <>
      <Nothing title="It cannot be told yet">
        {report.words.map((line) => (
          <p key={line}>{line}</p>
        ))}
        <p>
          Note in spring which plants are dead, and bring in the temperatures of the winters:{' '}
          <Link to="/import">a file of them</Link> will do.
        </p>
      </Nothing>
      {report.winters.length > 0 && <WinterTable winters={report.winters} />}
    </>
  );
}

function Told({ report }: { readonly report: WintersReport }): ReactNode {
  const measure = measureOf('°C', useUnits());
  const odds = oddsSentence(report, measure);
  return (
    <div className="winters-page">
      {report.curves.length > 0 && (
        <section aria-labelledby="by-cold" className="winters-cold">
          <h2 id="by-cold">The colder the winter</h2>
          <ByCold report={report} />
        </section>
      )}
      <section aria-labelledby="origins" className="winters-origins">
        <h2 id="origins">Origins side by side</h2>
        <Origins report={report} />
      </section>
      <section aria-labelledby="genets" className="winters-genets">
        <h2 id="genets">Genets</h2>
        <WinterGenets report={report} />
      </section>
      <section aria-labelledby="behind" className="winters-behind">
        <h2 id="behind">What stands behind it</h2>
        <p>
          Plants stood {counted(report.plantWinters, 'time')} through a winter, and{' '}
          {report.lost.toLocaleString('en-US')} were lost. Plants that were discarded or rogued count as taken
          out, not as lost.
        </p>
        <WinterTable winters={report.winters} />
        <Lines
          title="What was taken into account, and what could not be told"
          lines={odds ? [...report.words, odds] : report.words}
        />
      </section>
    </div>
  );
}

import { kindNames, kindOf } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { programmeQuery, queryClient } from '../api/queries.ts';
import { send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Page } from '../parts/page.tsx';
import { capital } from '../parts/words.ts';
import { Profiles } from './profiles.tsx';
import './programme.css';
import { SettingsForm } from './settings-form.tsx';

const signOut = async (): Promise<void> => {
  await send('POST', 'sign-out');
  await queryClient.resetQueries({ queryKey: programmeQuery.queryKey });
};

export function Programme(): ReactNode {
  const { data } = useQuery(programmeQuery);
  if (!data) return null;
  return (
    <Page title="Programme" line="What holds for the whole garden, every kind of record, and the way out.">
      <div className="programme">
        <section aria-labelledby="records">
          <h2 id="records">Records</h2>
          <p className="soft">Every kind can be looked at, mended and taken away as a file.</p>
          <ul className="kinds">
            {kindNames.map((kind) => (
              <li key={kind}>
                <Link to="/programme/$kind" params={{ kind }}>
                  {capital(kindOf(kind).many)}
                </Link>
                <span className="number">{(data.counts[kind] ?? 0).toLocaleString('en-US')}</span>
                <a
                  className="small"
                  href={`/api/export/${kind}.csv`}
                  download
                  aria-label={`${kindOf(kind).many} as CSV`}
                >
                  CSV
                </a>
                <a
                  className="small"
                  href={`/api/export/${kind}.xlsx`}
                  download
                  aria-label={`${kindOf(kind).many} as XLSX`}
                >
                  XLSX
                </a>
              </li>
            ))}
          </ul>
          <p>
            <a className="button button-plain" href="/api/export/all.xlsx" download>
              Take everything away in one workbook
            </a>
          </p>
        </section>
        <section aria-labelledby="in-the-beds">
          <h2 id="in-the-beds">In the beds</h2>
          <p>
            <Link to="/phones">Phones &amp; people: let a phone in, shut one out</Link>
          </p>
          <p>
            <Link to="/unsettled">Unsettled notes: where two people saw different things</Link>
          </p>
          <p>
            <Link to="/pictures">Pictures and memos: by plant, trait and day</Link>
          </p>
        </section>
        <section aria-labelledby="on-paper">
          <h2 id="on-paper">On paper</h2>
          <p>
            <Link to="/labels">Labels for beds, crosses, seed and cuttings</Link>
          </p>
          <p>
            <Link to="/paper">Rounds to take along on a clipboard and type in afterwards</Link>
          </p>
        </section>
        <section aria-labelledby="settings">
          <h2 id="settings">Settings</h2>
          <SettingsForm key={JSON.stringify(data.settings)} settings={data.settings} />
          <p className="small soft">
            Server of build {data.build}; this page of build {__BUILD__}.{' '}
            {data.open ? 'Open on this computer, without sign-in.' : ''}
          </p>
          {!data.open && (
            <div>
              <Button onClick={() => void signOut()}>Sign out on this device</Button>
            </div>
          )}
        </section>
        <Profiles />
      </div>
    </Page>
  );
}

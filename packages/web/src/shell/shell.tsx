import { useQuery } from '@tanstack/react-query';
import { Link, Outlet, useLocation } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { ApiError } from '../api/api-error.ts';
import { programmeQuery } from '../api/queries.ts';
import { Loading, Problem } from '../parts/states.tsx';
import { usePhone } from '../parts/use-media.ts';
import { Wordmark } from '../parts/wordmark.tsx';
import { dateInWords } from '../parts/words.ts';
import { Navigation } from './navigation.tsx';
import './shell.css';
import { SignIn } from './sign-in.tsx';
import { ThemeSwitch } from './theme-switch.tsx';
import { WaitingNotes } from './waiting-notes.tsx';
import { Warnings } from './warnings.tsx';

/** What frames every screen: whose garden, which day, who works, and the index of screens. */
export function Shell(): ReactNode {
  const programme = useQuery(programmeQuery);
  const phone = usePhone();
  const { pathname } = useLocation();
  const state = programme.data;

  if (pathname === '/sign-in' || (programme.error instanceof ApiError && programme.error.status === 401)) {
    return <SignIn />;
  }
  return (
    <div className="shell">
      <a className="skip" href="#screen">
        To the page
      </a>
      <header className="band">
        <Link to="/" className="band-home" aria-label="Keelrow, start">
          <Wordmark />
        </Link>
        {!phone && <Navigation />}
        <div className="band-facts">
          {state && (
            <>
              <span className="band-garden">
                <strong>{state.settings.name}</strong>
                {state.settings.kindOfGarden === 'demo' && <span className="demo-mark">invented garden</span>}
              </span>
              <span className="band-day">
                <time dateTime={state.today}>{dateInWords(state.today)}</time>
                {state.person && <span> · {state.person.name}</span>}
              </span>
            </>
          )}
        </div>
        <WaitingNotes />
        <ThemeSwitch />
      </header>
      {state && <Warnings warnings={state.warnings} />}
      <main id="screen" tabIndex={-1}>
        {state ? (
          <Outlet />
        ) : programme.error ? (
          <div className="page">
            <Problem error={programme.error} again={() => void programme.refetch()} />
          </div>
        ) : (
          <div className="page">
            <Loading what="Opening the programme" />
          </div>
        )}
      </main>
      {phone && <Navigation />}
    </div>
  );
}

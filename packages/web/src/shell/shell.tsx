import { useQuery } from '@tanstack/react-query';
import { Link, Outlet, useLocation } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { ApiError } from '../api/api-error.ts';
import { programmeQuery } from '../api/queries.ts';
import { Loading, Problem } from '../parts/states.tsx';
import { usePhone } from '../parts/use-media.ts';
import { Wordmark } from '../parts/wordmark.tsx';
import { dateInWords } from '../parts/words.ts';
import { DeviceLines } from './device-lines.tsx';
import { Navigation } from './navigation.tsx';
import './shell.css';
import { SignIn } from './sign-in.tsx';
import { ThemeSwitch } from './theme-switch.tsx';
import { WaitingNotes } from './waiting-notes.tsx';
import { Warnings } from './warnings.tsx';

/** Screens that work with what the device holds, let in or not. */
const worksAlone = /^\/(walk|phone)(\/|$)/;
/** A walk under way takes the whole screen, and tells by itself what waits. */
const wholeScreen = /^\/walk\/(?!new$)./;

/**
 * What frames every screen: whose garden, which day, who works, what waits, and the index of screens. Out of reach of
 * the server it opens with what the server said last.
 */
export function Shell(): ReactNode {
  const programme = useQuery(programmeQuery);
  const phone = usePhone();
  const { pathname } = useLocation();
  const state = programme.data;
  const shutOut = programme.error instanceof ApiError && programme.error.status === 401;

  if (pathname === '/sign-in' || (shutOut && !(state && worksAlone.test(pathname)))) return <SignIn />;
  if (wholeScreen.test(pathname)) return <Outlet />;
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
              <strong className="band-garden">{state.settings.name}</strong>
              <span className="band-day">
                {state.settings.kindOfGarden === 'demo' && <span className="demo-mark">invented garden</span>}
                <time dateTime={state.today}>{dateInWords(state.today)}</time>
                {state.person && <span className="band-person"> · {state.person.name}</span>}
              </span>
            </>
          )}
        </div>
        <WaitingNotes />
        <ThemeSwitch />
      </header>
      {state && <Warnings warnings={state.warnings} />}
      <DeviceLines />
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

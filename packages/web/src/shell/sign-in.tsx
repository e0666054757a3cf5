import { useQueryClient } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { type FormEvent, type ReactNode, useCallback, useEffect, useState } from 'react';
import { send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { Problem } from '../parts/states.tsx';
import { Wordmark } from '../parts/wordmark.tsx';
import { counted } from '../parts/words.ts';
import { phone } from '../phone/store.ts';
import { usePhoneState } from '../phone/use-phone.ts';
import { deviceName } from './install.ts';
import './sign-in.css';

const keyInAddress = (): string => new URLSearchParams(location.hash.slice(1)).get('key') ?? '';

/** The way in: a key by link (`#key=…`, which browsers do not send along with the address) or pasted. */
export function SignIn(): ReactNode {
  const [key, setKey] = useState(keyInAddress);
  const [error, setError] = useState<unknown>(null);
  const [busy, setBusy] = useState(false);
  const queries = useQueryClient();
  const navigate = useNavigate();

  const enter = useCallback(
    async (given: string) => {
      setBusy(true);
      setError(null);
      try {
        await send('POST', 'sign-in', { key: given.trim(), device: deviceName() });
        void phone.handOver();
        // After one visit a phone holds what its walks need, whichever screen it looks at first.
        if (matchMedia('(pointer: coarse)').matches) void phone.fetchHoldings().catch(() => undefined);
        await queries.resetQueries();
        await navigate({ to: '/' });
      } catch (problem) {
        setError(problem);
      } finally {
        setBusy(false);
      }
    },
    [queries, navigate],
  );

  useEffect(() => {
    document.title = 'Sign in · Keelrow';
    const given = keyInAddress();
    if (given === '') return;
    // The key should not stay in the browser's history.
    history.replaceState(null, '', location.pathname);
    void enter(given);
  }, [enter]);

  const submit = (event: FormEvent): void => {
    event.preventDefault();
    void enter(key);
  };

  return (
    <main className="sign-in">
      <form onSubmit={submit}>
        <Wordmark large />
        <h1>Sign in</h1>
        <p className="soft">
          At the office computer: the server prints a link with a key when it starts; follow it, or paste the
          key here. On a phone: the owner shows a code on the page Phones &amp; people; point the camera at
          it.
        </p>
        <WaitingHere />
        <Field label="Your key">
          {(control) => (
            <input
              {...control}
              type="password"
              autoComplete="current-password"
              spellCheck={false}
              value={key}
              onChange={(event) => setKey(event.target.value)}
            />
          )}
        </Field>
        {error !== null && <Problem error={error} />}
        <Button type="submit" look="main" disabled={busy || key.trim() === ''}>
          {busy ? 'One moment' : 'Go in'}
        </Button>
      </form>
    </main>
  );
}

/** Nobody needs to fear for notes because a key ran out. */
function WaitingHere(): ReactNode {
  const { waiting, refused, photosWaiting, holdingsOf } = usePhoneState();
  const all = waiting + refused + photosWaiting;
  if (all === 0 && holdingsOf === null) return null;
  return (
    <p>
      {all > 0 &&
        `${counted(all, 'note or picture waits', 'notes and pictures wait')} on this device and will be handed over once you are let in. `}
      <Link to="/phone">See what this device holds</Link>
    </p>
  );
}

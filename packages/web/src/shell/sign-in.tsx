import { useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { type FormEvent, type ReactNode, useCallback, useEffect, useState } from 'react';
import { send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { Problem } from '../parts/states.tsx';
import { Wordmark } from '../parts/wordmark.tsx';
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
        await send('POST', 'sign-in', { key: given.trim() });
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
          The server prints a link with a key when it starts. Follow that link, or paste the key here.
        </p>
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

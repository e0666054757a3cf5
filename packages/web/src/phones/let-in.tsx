import type { PhoneKey, Phones } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { type FormEvent, type ReactNode, useState } from 'react';
import { programmeQuery } from '../api/queries.ts';
import { send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Problem } from '../parts/states.tsx';
import { addRecord } from '../records/store-record.ts';
import { ChoosePerson, newPerson, type PersonChosen } from './choose-person.tsx';
import { WayIn } from './way-in.tsx';

/** Chooses who carries the phone, then shows the code that lets it in. */
export function LetIn({ people, phones, origins, helper, fingerprint }: Phones): ReactNode {
  const open = useQuery(programmeQuery).data?.open === true;
  const [chosen, setChosen] = useState<PersonChosen>({ id: '', ...newPerson });
  const [shown, setShown] = useState<(PhoneKey & { known: ReadonlySet<string> }) | null>(null);
  const [error, setError] = useState<unknown>(null);
  const reached = reachedAt(origins);

  const show = async (event?: FormEvent): Promise<void> => {
    event?.preventDefault();
    setError(null);
    try {
      const { id, code, name, role } = chosen;
      const person =
        id !== ''
          ? id
          : (await addRecord('people', { code: code.trim(), name: name.trim() || null, role })).id;
      setChosen({ ...chosen, id: person });
      const key = await send<PhoneKey>('POST', 'phones/let-in', { person });
      setShown({ ...key, known: new Set(phones.map((phone) => phone.id)) });
    } catch (problem) {
      setError(problem);
    }
  };

  return (
    <section className="let-in" aria-labelledby="let-in">
      <h2 id="let-in">Let a phone in</h2>
      {open || reached === null ? (
        <NotReached open={open} />
      ) : shown === null ? (
        <form onSubmit={(event) => void show(event)}>
          <ChoosePerson people={people} chosen={chosen} onChoose={setChosen} />
          {error !== null && <Problem error={error} />}
          <div>
            <Button type="submit" look="main" disabled={chosen.id === '' && chosen.code.trim() === ''}>
              Show the code
            </Button>
          </div>
        </form>
      ) : (
        <WayIn
          until={shown.until}
          link={`${reached}/sign-in#key=${shown.key}`}
          helper={helper}
          fingerprint={fingerprint}
          used={phones.find(({ id }) => !shown.known.has(id)) ?? null}
          onAgain={() => void show()}
          onDone={() => {
            setShown(null);
            setChosen({ id: '', ...newPerson });
          }}
        />
      )}
    </section>
  );
}

/** Where phones reach the server: where it says, else the address of this very page where it is no computer's own name. */
function reachedAt(origins: readonly string[]): string | null {
  if (origins.length > 0) return origins[0]!;
  const isOwnName = ['localhost', '127.0.0.1', '[::1]'].includes(location.hostname);
  return location.protocol === 'https:' && !isOwnName ? location.origin : null;
}

function NotReached({ open }: { readonly open: boolean }): ReactNode {
  return (
    <>
      <p>
        No phone can reach this server: it was started for this computer{' '}
        {open ? 'alone, without sign-in' : 'alone'}.
      </p>
      <p>
        Stop it and start it with <code>keelrow serve --lan</code>: then phones in the same network reach it,
        each is let in by a code shown here, and everybody signs in.
      </p>
    </>
  );
}

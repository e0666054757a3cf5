import type { TraitShown } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { readEntry } from '../notes/entry.ts';
import { Button } from '../parts/button.tsx';
import { useUnits } from '../parts/measure.ts';
import { Problem } from '../parts/states.tsx';
import { useToday } from '../parts/use-today.ts';
import { useTyping } from '../shell/typing.ts';
import type { KeptFact } from './facts.ts';
import { noteWords } from './note-words.ts';
import { phone } from './store.ts';
import { useLive } from './use-live.ts';

const refusedFacts = () => phone.db.facts.where('state').equals('refused').toArray();
const refusedPhotos = async () => {
  const photos = await phone.db.photos.filter(({ problem }) => problem !== null).toArray();
  return photos.map(({ hash, words, problem }) => ({ hash, words, problem }));
};
const heldTraits = async () => (await phone.db.held.get('holdings'))?.traits;

/** What the server would not take, why, and three ways on: mended, sent once more, or thrown away by hand. */
export function RefusedNotes(): ReactNode {
  const facts = useLive(refusedFacts) ?? [];
  const photos = useLive(refusedPhotos) ?? [];
  const held = useLive(heldTraits);
  const asked = useQuery({ ...traitsQuery, enabled: facts.length > 0 && !held });
  const traits = held ?? asked.data ?? [];
  if (facts.length + photos.length === 0) return null;
  return (
    <section aria-labelledby="refused-title">
      <h2 id="refused-title">Came back refused</h2>
      <ul className="phone-list phone-refused">
        {facts.map((fact) => (
          <RefusedFact
            key={fact.id}
            fact={fact}
            trait={traits.find(({ id, code }) => id === fact.row?.trait || code === fact.row?.trait)}
          />
        ))}
        {photos.map(({ hash, words, problem }) => (
          <li key={hash}>
            <p>
              <strong>{words}</strong>
            </p>
            <p className="field-problem">{problem}</p>
            <p className="phone-buttons">
              <Button onClick={() => void phone.sendPhotoAgain(hash)}>Send again</Button>
              <ThrowAway throwAway={() => phone.throwPhotoAway(hash)} />
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function RefusedFact({
  fact,
  trait,
}: {
  readonly fact: KeptFact;
  readonly trait: TraitShown | undefined;
}): ReactNode {
  const [mending, setMending] = useState(false);
  return (
    <li>
      <p>
        <strong>{fact.words}</strong>
      </p>
      <p className="field-problem">{fact.problem}</p>
      {mending && trait ? (
        <Mend fact={fact} trait={trait} onDone={() => setMending(false)} />
      ) : (
        <p className="phone-buttons">
          {fact.kind === 'notes' && trait && <Button onClick={() => setMending(true)}>Mend</Button>}
          <Button onClick={() => void phone.sendAgain(fact.id)}>Send again</Button>
          <ThrowAway throwAway={() => phone.throwAway(fact.id)} />
        </p>
      )}
    </li>
  );
}

/** Asks once more: what is thrown away is gone. */
function ThrowAway({ throwAway }: { readonly throwAway: () => Promise<void> }): ReactNode {
  const [sure, setSure] = useState(false);
  return sure ? (
    <>
      <Button look="danger" onClick={() => void throwAway()}>
        Yes, throw it away for good
      </Button>
      <Button onClick={() => setSure(false)}>Keep it</Button>
    </>
  ) : (
    <Button look="quiet" onClick={() => setSure(true)}>
      Throw away
    </Button>
  );
}

/** The note entered anew, with another value. */
function Mend({
  fact,
  trait,
  onDone,
}: {
  readonly fact: KeptFact;
  readonly trait: TraitShown;
  readonly onDone: () => void;
}): ReactNode {
  const today = useToday();
  const units = useUnits();
  const [typed, setTyped] = useState('');
  const [error, setError] = useState<unknown>(null);
  useTyping(true);
  const read = readEntry(trait, typed, { on: String(fact.row?.on ?? today), today, units });
  const problem = read && 'problem' in read ? read.problem : null;

  const enter = async (): Promise<void> => {
    if (!read || 'problem' in read) return;
    const { value: _wrong, state: _too, ...rest } = fact.row!;
    const plant = fact.words.split(' ', 1)[0]!;
    try {
      await phone.enter([
        {
          kind: 'notes',
          row: { ...rest, ...(read.state === 'seen' ? { value: read.value } : { state: read.state }) },
          replaces: fact.id,
          words: noteWords(plant, trait, read, units),
        },
      ]);
      onDone();
    } catch (wrong) {
      setError(wrong);
    }
  };
  return (
    <form
      className="phone-buttons"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <label>
        {trait.name}{' '}
        <input value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
      </label>
      <Button type="submit" look="main" disabled={!read || problem !== null}>
        Enter
      </Button>
      <Button onClick={onDone}>Leave it</Button>
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
      {error !== null && <Problem error={error} />}
    </form>
  );
}

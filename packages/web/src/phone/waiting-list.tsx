import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Problem } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { saveBlob } from './save-blob.ts';
import { phone } from './store.ts';
import { useLive } from './use-live.ts';
import { usePhoneState } from './use-phone.ts';

/** As many as one looks through; the rest is in the file. */
const shownAtMost = 100;
const waitingFirst = () => phone.db.facts.where('state').equals('waiting').limit(shownAtMost).toArray();

/** What waits, a button to hand it over, and the way to a file. */
export function WaitingList(): ReactNode {
  const { waiting, refused, photosWaiting, handingOver, trouble } = usePhoneState();
  const facts = useLive(waitingFirst) ?? [];
  const [error, setError] = useState<unknown>(null);
  const all = waiting + refused + photosWaiting;

  const save = (form: 'json' | 'csv'): void => {
    setError(null);
    phone
      .saveToFile(form)
      .then((blob) => saveBlob(blob, `keelrow-waiting-${new Date().toISOString().slice(0, 10)}.${form}`))
      .catch(setError);
  };
  return (
    <section aria-labelledby="waiting-title">
      <h2 id="waiting-title">Not handed over yet</h2>
      <p role="status">
        {all === 0
          ? 'Nothing waits: everything entered here is in the records.'
          : `${counted(waiting, 'note')} and ${counted(photosWaiting, 'picture')} wait${refused > 0 ? `, ${refused} came back refused` : ''}.`}
      </p>
      {trouble && waiting + photosWaiting > 0 && <p className="field-problem">{trouble}</p>}
      <p className="phone-buttons">
        <Button
          look="main"
          disabled={handingOver || waiting + photosWaiting === 0}
          onClick={() => void phone.handOver()}
        >
          {handingOver ? 'Handing over' : 'Hand over now'}
        </Button>
        <Button disabled={all === 0} onClick={() => save('json')}>
          Save all to a file
        </Button>
        <Button disabled={waiting + refused === 0} onClick={() => save('csv')}>
          Save notes as a table
        </Button>
      </p>
      {error !== null && <Problem error={error} />}
      {facts.length > 0 && (
        <details>
          <summary>See what waits</summary>
          <ol className="phone-list">
            {facts.map(({ id, words }) => (
              <li key={id}>{words}</li>
            ))}
          </ol>
          {waiting > shownAtMost && <p className="soft">and {waiting - shownAtMost} more</p>}
        </details>
      )}
      <TakeFileIn />
    </section>
  );
}

/** Notes that another phone saved to a file come into the records by way of this browser. */
function TakeFileIn(): ReactNode {
  const [told, setTold] = useState<string | null>(null);
  const [error, setError] = useState<unknown>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    setError(null);
    setTold(null);
    try {
      const { facts, photos } = await phone.takeSavedFile(await file.text());
      setTold(
        `${counted(facts, 'note')} and ${counted(photos, 'picture')} taken in; what was here already stays as it is.`,
      );
    } catch (problem) {
      setError(problem);
    }
  };
  return (
    <details>
      <summary>Take in a file that another phone saved</summary>
      <p>
        <label>
          File of waiting notes (.json){' '}
          <input
            type="file"
            accept="application/json,.json"
            onChange={(event) => {
              void take(event.target.files?.[0]);
              event.target.value = '';
            }}
          />
        </label>
      </p>
      {told && <p role="status">{told}</p>}
      {error !== null && <Problem error={error} />}
    </details>
  );
}

import type { ProfileShown, TraitsTaken } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { profilesQuery, queryClient } from '../api/queries.ts';
import { part, send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { Problem } from '../parts/states.tsx';
import './profiles.css';

/** What belongs to a genus: its traits, usual limits and cautions, as files that the breeder may change. */
export function Profiles(): ReactNode {
  const { data, error } = useQuery(profilesQuery);
  return (
    <section aria-labelledby="profiles">
      <h2 id="profiles">Profiles of genera</h2>
      <p className="soft">
        Traits, usual limits and cautions of a genus, each with its source. They are files in the programme’s
        folder; change them to suit your garden.
      </p>
      {error && <Problem error={error} />}
      <ul className="profiles">
        {data?.map((profile) => (
          <li key={profile.name}>
            <ProfileLine profile={profile} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function ProfileLine({ profile }: { readonly profile: ProfileShown }): ReactNode {
  const [error, setError] = useState<unknown>(null);
  const [made, setMade] = useState<number | null>(null);
  const missing = profile.missingTraits.length;
  const take = async (): Promise<void> => {
    setError(null);
    try {
      const taken = await send<TraitsTaken>('POST', `profiles/${part(profile.name)}/traits`, {});
      setMade(taken.made.length);
      await queryClient.invalidateQueries();
    } catch (problem) {
      setError(problem);
    }
  };
  return (
    <>
      <p>
        <strong>{profile.title}</strong>{' '}
        <span className="soft">
          {profile.genus ? <i>{profile.genus}</i> : 'any genus'} · {profile.traits} traits
        </span>
      </p>
      {profile.problems.map((problem) => (
        <p key={problem} className="field-problem">
          {problem}
        </p>
      ))}
      {made !== null && <p role="status">{made} traits made.</p>}
      {missing > 0 && made === null && (
        <Button onClick={() => void take()}>
          Make its {missing === profile.traits ? '' : `${missing} missing of `}
          {profile.traits} traits
        </Button>
      )}
      {error !== null && <Problem error={error} />}
      <details>
        <summary>Read or change it</summary>
        <ProfileText key={profile.text} profile={profile} />
      </details>
    </>
  );
}

function ProfileText({ profile }: { readonly profile: ProfileShown }): ReactNode {
  const [text, setText] = useState(profile.text);
  const [error, setError] = useState<unknown>(null);
  const store = async (): Promise<void> => {
    setError(null);
    try {
      await send('PUT', `profiles/${part(profile.name)}`, { text });
      await queryClient.invalidateQueries();
    } catch (problem) {
      setError(problem);
    }
  };
  return (
    <div className="profile-text">
      <Field
        label={`The file ${profile.name}.json`}
        hint="It is checked before it is kept; what is wrong is said by its place."
      >
        {(control) => (
          <textarea
            {...control}
            rows={18}
            spellCheck={false}
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
        )}
      </Field>
      {error !== null && <Problem error={error} />}
      <Button disabled={text === profile.text} onClick={() => void store()}>
        Keep the change
      </Button>
    </div>
  );
}

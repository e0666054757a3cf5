import type { PhoneLetIn } from '@keelrow/server/contract';
import { type ReactNode, useState } from 'react';
import { queryClient } from '../api/queries.ts';
import { part, send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Problem } from '../parts/states.tsx';
import { dateInWords } from '../parts/words.ts';
import { momentInWords } from './moment.ts';
import { phonesQuery } from './queries.ts';

export function PhoneList({ phones }: { readonly phones: readonly PhoneLetIn[] }): ReactNode {
  if (phones.length === 0) return <p className="soft">No phone was let in yet.</p>;
  return (
    <ul className="phone-list">
      {phones.map((phone) => (
        <Phone key={phone.id} phone={phone} />
      ))}
    </ul>
  );
}

function Phone({ phone }: { readonly phone: PhoneLetIn }): ReactNode {
  const isOut = phone.shutOutOn !== null;
  return (
    <li className={isOut ? 'phone-out' : undefined}>
      <p>
        <strong>{phone.code}</strong>{' '}
        <span className="soft">
          of {phone.person}, {phone.role}
        </span>
      </p>
      <p className="small soft">
        Let in on {dateInWords(phone.letInOn)}
        {phone.lastSeenAt === null ? ', not seen since' : `, last seen ${momentInWords(phone.lastSeenAt)}`}
        {phone.shutOutOn !== null && `, shut out on ${dateInWords(phone.shutOutOn)}; its notes stand`}
      </p>
      {!isOut && <ShutOut phone={phone} />}
    </li>
  );
}

/** Two clicks: the second says what it does. */
function ShutOut({ phone }: { readonly phone: PhoneLetIn }): ReactNode {
  const [asked, setAsked] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const shutOut = async (): Promise<void> => {
    try {
      await send('POST', `phones/${part(phone.id)}/shut-out`);
      await queryClient.invalidateQueries({ queryKey: phonesQuery.queryKey });
    } catch (problem) {
      setError(problem);
    }
  };
  if (!asked)
    return (
      <Button look="danger" aria-label={`Shut out ${phone.code}`} onClick={() => setAsked(true)}>
        Shut out
      </Button>
    );
  return (
    <div className="shut-out">
      <p>
        What it handed over stays in the record. What it has not handed over stays on it, and comes in if it
        is let in again.
      </p>
      {error !== null && <Problem error={error} />}
      <p className="phone-actions">
        <Button onClick={() => setAsked(false)}>Leave it in</Button>
        <Button look="danger" onClick={() => void shutOut()}>
          Shut {phone.code} out now
        </Button>
      </p>
    </div>
  );
}

import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { Case } from './case.tsx';
import { unsettledQuery } from './queries.ts';
import './unsettled.css';

/** Notes that say different things of one plant: which of them hold. */
export function UnsettledNotes(): ReactNode {
  const unsettled = useQuery(unsettledQuery);
  const cases = unsettled.data?.cases;
  return (
    <Page
      title="Unsettled notes"
      line={
        cases && cases.length > 0
          ? counted(cases.length, 'contradiction')
          : 'Where two people saw different things.'
      }
    >
      {unsettled.error && !cases ? (
        <Problem error={unsettled.error} again={() => void unsettled.refetch()} />
      ) : !cases ? (
        <Loading what="Looking for notes that contradict each other" />
      ) : cases.length === 0 ? (
        <Nothing title="No notes contradict each other">
          <p>
            When two people note different things of one plant, trait and day, both notes stay in the record
            and stand here side by side until it is said which of them hold.
          </p>
        </Nothing>
      ) : (
        <ul className="cases">
          {cases.map((one) => (
            <Case key={one.notes.map(({ id }) => id).join()} unsettled={one} />
          ))}
        </ul>
      )}
    </Page>
  );
}

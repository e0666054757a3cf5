import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Page } from '../parts/page.tsx';
import { Loading, Problem } from '../parts/states.tsx';
import { LetIn } from './let-in.tsx';
import { PhoneList } from './phone-list.tsx';
import './phones.css';
import { phonesQuery } from './queries.ts';

/** Who may note in the beds: lets a phone in, lists those that are in, shuts one out. */
export function PhonesAndPeople(): ReactNode {
  const phones = useQuery({ ...phonesQuery, refetchInterval: 2000 });
  return (
    <Page title="Phones & people" line="Who notes in the beds, and with which phone.">
      {phones.error && !phones.data ? (
        <Problem error={phones.error} again={() => void phones.refetch()} />
      ) : !phones.data ? (
        <Loading what="Fetching the phones" />
      ) : (
        <div className="phones">
          <LetIn {...phones.data} />
          <section aria-labelledby="phones-in">
            <h2 id="phones-in">Phones</h2>
            <PhoneList phones={phones.data.phones} />
            <p className="small soft">
              Names, roles and who has left are changed among the{' '}
              <Link to="/programme/$kind" params={{ kind: 'people' }}>
                people
              </Link>
              ; notes that contradict each other wait under <Link to="/unsettled">Unsettled notes</Link>.
            </p>
          </section>
        </div>
      )}
    </Page>
  );
}

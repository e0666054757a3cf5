import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { bedsQuery, noteGridQuery, traitsQuery } from '../api/queries.ts';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { usePhone } from '../parts/use-media.ts';
import { useToday } from '../parts/use-today.ts';
import { NoteCards } from './note-cards.tsx';
import { NoteGridTable } from './note-grid-table.tsx';
import './notes.css';
import { NotesState } from './notes-state.tsx';
import { chosenRound, keepRound } from './round.ts';
import { RoundChooser } from './round-chooser.tsx';

const route = getRouteApi('/notes');

export function Notes(): ReactNode {
  const today = useToday();
  const phone = usePhone();
  const beds = useQuery(bedsQuery);
  const traits = useQuery(traitsQuery);
  const navigate = route.useNavigate();
  const round = chosenRound(route.useSearch(), beds.data, traits.data, today);
  const grid = useQuery({
    ...noteGridQuery(round?.place ?? '', round?.traits ?? [], Number((round?.on ?? today).slice(0, 4))),
    enabled: round !== null && round.traits.length > 0,
  });
  const error = beds.error ?? traits.error ?? grid.error;
  const again = (): void => {
    for (const query of [beds, traits, grid]) if (query.error) void query.refetch();
  };

  return (
    <Page
      fills
      title="Notes"
      line={
        <>
          What was seen, plant by plant in walking order. <Link to="/paper">On paper</Link>
        </>
      }
    >
      {beds.data && traits.data && round && (
        <RoundChooser
          round={round}
          beds={beds.data.beds}
          traits={traits.data}
          today={today}
          onChoose={(next) => {
            keepRound(next);
            void navigate({
              search: { place: next.place, traits: next.traits.join(','), on: next.on },
              replace: true,
            });
          }}
        />
      )}
      {error ? (
        <Problem error={error} again={again} />
      ) : beds.data && traits.data && !round ? (
        <Nothing title="There is nothing to take notes of yet">
          <p>
            Notes need plants in a bed and traits to look at.{' '}
            <Link to="/import">Bring in a list of plants</Link>, or{' '}
            <Link to="/programme/$kind" params={{ kind: 'traits' }}>
              set up traits
            </Link>{' '}
            and{' '}
            <Link to="/programme/$kind" params={{ kind: 'places' }}>
              beds
            </Link>{' '}
            by hand.
          </p>
        </Nothing>
      ) : round?.traits.length === 0 ? (
        <Nothing title="No trait chosen">
          <p>Choose above what is to be noted.</p>
        </Nothing>
      ) : !grid.data || !round ? (
        <Loading what="Fetching the bed" />
      ) : grid.data.rows.length === 0 ? (
        <Nothing title="No plant stands in this bed">
          <p>Choose another bed, or give plants this place.</p>
        </Nothing>
      ) : (
        <>
          <NotesState />
          {phone ? (
            <NoteCards grid={grid.data} on={round.on} />
          ) : (
            <NoteGridTable grid={grid.data} on={round.on} />
          )}
        </>
      )}
    </Page>
  );
}

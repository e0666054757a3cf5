import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { noteStore, useNotesEntered } from '../notes/note-store.ts';
import { Button } from '../parts/button.tsx';
import { InlineField } from '../parts/field.tsx';
import { useUnits } from '../parts/measure.ts';
import { Page } from '../parts/page.tsx';
import { Loading, Problem } from '../parts/states.tsx';
import { useToday } from '../parts/use-today.ts';
import { keepPlace, placeKept } from './kept-place.ts';
import './paper.css';
import { PaperRows } from './paper-rows.tsx';
import { roundSheetQuery } from './queries.ts';

const route = getRouteApi('/paper/$sheet');

/** Typing a paper sheet in: date and person once, then box after box as they stand on the sheet. */
export function PaperSheet(): ReactNode {
  const { sheet: code } = route.useParams();
  const today = useToday();
  const units = useUnits();
  const [kept] = useState(() => placeKept(code));
  const [on, setOn] = useState(kept?.on ?? '');
  const [by, setBy] = useState(kept?.by ?? '');
  const { past } = useNotesEntered();
  const year = Number((on || today).slice(0, 4));
  const { data, error, refetch } = useQuery(roundSheetQuery(code, year));
  const ready = on !== '' && by !== '';

  return (
    <Page
      title={`Sheet ${data?.sheet.code ?? code.toUpperCase()}`}
      line={data && (data.sheet.place ?? 'All beds')}
      actions={
        <Button icon="undo" disabled={past.length === 0} onClick={() => noteStore.undo()}>
          Undo
        </Button>
      }
      controls={
        data && (
          <>
            <InlineField label="Date on the sheet">
              {(id) => (
                <input
                  id={id}
                  type="date"
                  max={today}
                  value={on}
                  onChange={({ target }) => setOn(target.value <= today ? target.value : '')}
                />
              )}
            </InlineField>
            <InlineField label="Person">
              {(id) => (
                <select id={id} value={by} onChange={({ target }) => setBy(target.value)}>
                  <option value="">Choose</option>
                  {data.people.map((person) => (
                    <option key={person.code} value={person.code}>
                      {person.name ?? person.code}
                    </option>
                  ))}
                </select>
              )}
            </InlineField>
          </>
        )
      }
    >
      {error ? (
        <>
          <Problem error={error} again={() => void refetch()} />
          <p>
            <Link to="/paper">Back to the sheets</Link>
          </p>
        </>
      ) : !data ? (
        <Loading what="Looking for the sheet" />
      ) : !ready ? (
        <p>Choose the date and the person that stand on the sheet; they hold for all of its notes.</p>
      ) : (
        <>
          <p className="small soft">
            Enter goes on, an empty box is skipped. <kbd>n</kbd> not yet, <kbd>d</kbd> dead, <kbd>m</kbd>{' '}
            missing; in columns of words with Alt.
          </p>
          <div className="paper-scroll">
            <PaperRows
              key={`${on} ${by}`}
              grid={data.grid}
              walked={{ on, by, today, units }}
              begin={kept && kept.on === on ? kept : { row: 0, column: 0 }}
              onPlace={(row, column) => keepPlace(code, { on, by, row, column })}
            />
          </div>
        </>
      )}
    </Page>
  );
}

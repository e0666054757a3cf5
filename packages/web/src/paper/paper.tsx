import type { PaperName } from '@keelrow/breeding/labels';
import type { RoundSheet, RoundToPrint } from '@keelrow/server/contract';
import { useMutation, useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { bedsQuery, queryClient, traitsQuery } from '../api/queries.ts';
import { part, send } from '../api/talk.ts';
import { chosenRound, keepRound } from '../notes/round.ts';
import { TraitsChooser } from '../notes/round-chooser.tsx';
import { Button } from '../parts/button.tsx';
import { Field, InlineField } from '../parts/field.tsx';
import { useUnits } from '../parts/measure.ts';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { useToday } from '../parts/use-today.ts';
import { counted, dateInWords } from '../parts/words.ts';
import { ScanButton } from '../scan/scan-button.tsx';
import './paper.css';
import { roundSheetsQuery } from './queries.ts';
import { numberOf } from './sheet-number.ts';

/** Rounds on paper: print a sheet, and type it in when it comes back. */
export function Paper(): ReactNode {
  const sheets = useQuery(roundSheetsQuery);
  const paper: PaperName = useUnits() === 'us' ? 'Letter' : 'A4';
  return (
    <Page title="On paper" line="A round to take along on a clipboard, and to type in afterwards.">
      <div className="paper-parts">
        <PrintRound />
        <FindSheet />
      </div>
      <section aria-labelledby="sheets">
        <h2 id="sheets">Sheets printed last</h2>
        {sheets.error ? (
          <Problem error={sheets.error} again={() => void sheets.refetch()} />
        ) : !sheets.data ? (
          <Loading what="Fetching the sheets" />
        ) : sheets.data.length === 0 ? (
          <p className="soft">None yet.</p>
        ) : (
          <ul className="paper-sheets">
            {sheets.data.map((sheet) => (
              <SheetLine key={sheet.code} sheet={sheet} paper={paper} />
            ))}
          </ul>
        )}
      </section>
    </Page>
  );
}

function SheetLine({ sheet, paper }: { readonly sheet: RoundSheet; readonly paper: PaperName }): ReactNode {
  return (
    <li>
      <strong className="number">{sheet.code}</strong>
      <span>
        {sheet.place ?? 'All beds'}, {counted(sheet.plants.length, 'plant')}
        <span className="small soft">
          {' '}
          {sheet.traits.join(', ')} · {dateInWords(sheet.madeAt.slice(0, 10))}
        </span>
      </span>
      <a
        className="button button-plain"
        href={`/api/round-sheets/${part(sheet.code)}/pdf?paper=${paper}`}
        target="_blank"
        rel="noreferrer"
        aria-label={`PDF of ${sheet.code}`}
      >
        PDF
      </a>
      <Link
        className="button button-plain"
        to="/paper/$sheet"
        params={{ sheet: sheet.code }}
        aria-label={`Type in ${sheet.code}`}
      >
        Type in
      </Link>
    </li>
  );
}

function PrintRound(): ReactNode {
  const today = useToday();
  const beds = useQuery(bedsQuery);
  const traits = useQuery(traitsQuery);
  const [fromEnd, setFromEnd] = useState(false);
  const [changed, setChanged] = useState<{ place?: string; traits?: string }>({});
  const round = chosenRound(changed, beds.data, traits.data, today);
  const make = useMutation({
    mutationFn: (wanted: RoundToPrint) => send<RoundSheet>('POST', 'round-sheets', wanted),
    onSuccess: () => queryClient.invalidateQueries({ queryKey: roundSheetsQuery.queryKey }),
  });
  const error = beds.error ?? traits.error;
  if (error) return <Problem error={error} />;
  if (!beds.data || !traits.data) return <Loading what="Fetching the beds" />;
  if (!round) return <Nothing title="There is nothing to take notes of yet" />;
  return (
    <section aria-labelledby="print-round" className="paper-part">
      <h2 id="print-round">Print a round</h2>
      <InlineField label="Bed">
        {(id) => (
          <select
            id={id}
            value={round.place}
            onChange={({ target }) => setChanged({ ...changed, place: target.value })}
          >
            {beds.data.beds.map((bed) => (
              <option key={bed.id} value={bed.code}>
                {bed.code} ({counted(bed.plants, 'plant')})
              </option>
            ))}
          </select>
        )}
      </InlineField>
      <TraitsChooser
        round={round}
        traits={traits.data}
        onChoose={(next) => setChanged({ place: next.place, traits: next.traits.join(',') })}
      />
      <label className="ticked">
        <input type="checkbox" checked={fromEnd} onChange={({ target }) => setFromEnd(target.checked)} />
        Begin at the far end of the bed
      </label>
      <Button
        look="main"
        disabled={make.isPending || round.traits.length === 0}
        onClick={() => {
          keepRound(round);
          make.mutate({ place: round.place, traits: round.traits, fromEnd });
        }}
      >
        Make the sheet
      </Button>
      {make.error && <Problem error={make.error} />}
      {make.data && (
        <p role="status">{make.data.code} is made; its PDF is below. Its number stands on every page.</p>
      )}
    </section>
  );
}

function FindSheet(): ReactNode {
  const navigate = useNavigate();
  const [typed, setTyped] = useState('');
  const find = (code: string): void => {
    if (code.trim() !== '')
      void navigate({ to: '/paper/$sheet', params: { sheet: code.trim().toUpperCase() } });
  };
  return (
    <form
      className="paper-part"
      aria-labelledby="find-sheet"
      onSubmit={(event) => {
        event.preventDefault();
        find(numberOf(typed));
      }}
    >
      <h2 id="find-sheet">Type a sheet in</h2>
      <Field label="Number in its upper right corner" hint="With or without the character in the frame.">
        {(control) => (
          <input
            {...control}
            value={typed}
            autoComplete="off"
            onChange={({ target }) => setTyped(target.value)}
          />
        )}
      </Field>
      <div className="paper-find">
        <Button type="submit" look="main" disabled={typed.trim() === ''}>
          Find it
        </Button>
        <ScanButton onCode={find}>Scan its square</ScanButton>
      </div>
    </form>
  );
}

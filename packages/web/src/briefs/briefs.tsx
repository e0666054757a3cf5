import { Link, useNavigate } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { counted, dateInWords } from '../parts/words.ts';
import { RecordForm } from '../records/record-form.tsx';
import { addRecord } from '../records/store-record.ts';
import './briefs.css';
import type { Limit } from './limits.ts';
import { type BriefRow, useBriefs, useLimits } from './queries.ts';

const fields = ['name', 'code', 'aim'];

/** What is wanted: every brief with what it asks in short. */
export function Briefs(): ReactNode {
  const briefs = useBriefs();
  const limits = useLimits();
  const [making, setMaking] = useState(false);
  const rows = [...(briefs.data?.rows ?? [])].sort((a, b) => Number(isClosed(a)) - Number(isClosed(b)));
  return (
    <Page
      title="Briefs"
      line="What is wanted, who comes close, and what stands in the way."
      actions={
        <Button icon="plus" look="main" onClick={() => setMaking(true)}>
          Make a brief
        </Button>
      }
    >
      {briefs.error ? (
        <Problem error={briefs.error} again={() => void briefs.refetch()} />
      ) : !briefs.data ? (
        <Loading what="Fetching the briefs" />
      ) : rows.length === 0 ? (
        <Nothing title="Nothing is wanted yet">
          <p>
            A brief says what a new plant has to be: a least height, the weeks in which it is to flower, a
            colour. Every plant of the garden is then held against it, with the chance that it truly meets all
            of it.
          </p>
        </Nothing>
      ) : (
        <ul className="briefs">
          {rows.map((brief) => (
            <OneBrief
              key={brief.id}
              brief={brief}
              limits={(limits.data ?? []).filter((limit) => limit.brief === brief.code)}
            />
          ))}
        </ul>
      )}
      {making && <MakeBrief onClose={() => setMaking(false)} />}
    </Page>
  );
}

const isClosed = (brief: BriefRow): boolean => brief.closed_on !== null && brief.closed_on !== undefined;

function OneBrief({
  brief,
  limits,
}: {
  readonly brief: BriefRow;
  readonly limits: readonly Limit[];
}): ReactNode {
  const musts = limits.filter(({ must }) => must).length;
  const asks = [counted(musts, 'must', 'musts'), counted(limits.length - musts, 'wish', 'wishes')];
  return (
    <li>
      <h2>
        <Link to="/briefs/$brief" params={{ brief: String(brief.code) }}>
          {String(brief.name)}
        </Link>
      </h2>
      {typeof brief.aim === 'string' && <p>{brief.aim}</p>}
      <p className="small soft">
        {String(brief.code)} · {limits.length === 0 ? 'no limits yet' : asks.join(', ')}
        {typeof brief.by === 'string' && ` · wanted by ${brief.by}`}
        {isClosed(brief) && ` · closed ${dateInWords(String(brief.closed_on))}`}
      </p>
    </li>
  );
}

function MakeBrief({ onClose }: { readonly onClose: () => void }): ReactNode {
  const navigate = useNavigate();
  const [nothing] = useState({});
  return (
    <Dialog title="Make a brief" onClose={onClose}>
      <RecordForm
        kind="briefs"
        row={nothing}
        fields={fields}
        submit="Make it"
        onStore={async (row) => {
          await addRecord('briefs', row);
          onClose();
          await navigate({ to: '/briefs/$brief', params: { brief: String(row.code) } });
        }}
      />
    </Dialog>
  );
}

import { type AnyRow, isKindName, type KindName, kindOf, labelOf } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { recordsQuery } from '../api/queries.ts';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { Page } from '../parts/page.tsx';
import { SearchBox } from '../parts/search-box.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { capital, counted } from '../parts/words.ts';
import { NotFound } from '../shell/not-found.tsx';
import { RecordForm } from './record-form.tsx';
import { RecordTable } from './record-table.tsx';
import './records.css';
import { RecordSheet } from './record-sheet.tsx';
import { addRecord } from './store-record.ts';

const route = getRouteApi('/programme/$kind');
const pageSize = 100;

export function Records(): ReactNode {
  const { kind } = route.useParams();
  return isKindName(kind) ? <RecordsOf key={kind} kind={kind} /> : <NotFound />;
}

function RecordsOf({ kind }: { readonly kind: KindName }): ReactNode {
  const declared = kindOf(kind);
  const { search = '', page = 0 } = route.useSearch();
  const navigate = route.useNavigate();
  const list = useQuery(recordsQuery(kind, search, page * pageSize, pageSize));
  const [adding, setAdding] = useState(false);
  const [shown, setShown] = useState<(AnyRow & { readonly id: string }) | null>(null);
  const [nothing] = useState<AnyRow>({});
  const total = list.data?.total ?? 0;
  const last = Math.max(0, Math.ceil(total / pageSize) - 1);

  return (
    <Page
      title={capital(declared.many)}
      line={
        <>
          {declared.about} <Link to="/programme">All kinds</Link>
        </>
      }
      controls={
        <SearchBox
          value={search}
          name={`Search ${declared.many}`}
          placeholder="Search"
          onSearch={(next) => void navigate({ search: { search: next || undefined }, replace: true })}
        />
      }
      actions={
        <>
          <a className="button button-plain" href={`/api/export/${kind}.csv`} download>
            Take away as CSV
          </a>
          <Button icon="plus" onClick={() => setAdding(true)}>
            Add a {declared.one}
          </Button>
        </>
      }
    >
      {list.error ? (
        <Problem error={list.error} again={() => void list.refetch()} />
      ) : !list.data ? (
        <Loading what={`Fetching the ${declared.many}`} />
      ) : total === 0 ? (
        <Nothing title={search ? 'Nothing is like that' : `No ${declared.many} yet`}>
          {!search && (
            <p>
              Add one by hand, or <Link to="/import">bring in a file</Link>.
            </p>
          )}
        </Nothing>
      ) : (
        <>
          <RecordTable kind={kind} rows={list.data.rows} onShow={setShown} />
          <div className="pager">
            <Button
              disabled={page <= 0}
              onClick={() => void navigate({ search: { search: search || undefined, page: page - 1 } })}
            >
              Earlier
            </Button>
            <span>
              {(page * pageSize + 1).toLocaleString('en-US')} to{' '}
              {Math.min(total, (page + 1) * pageSize).toLocaleString('en-US')} of{' '}
              {counted(total, declared.one, declared.many)}
            </span>
            <Button
              disabled={page >= last}
              onClick={() => void navigate({ search: { search: search || undefined, page: page + 1 } })}
            >
              Later
            </Button>
          </div>
        </>
      )}
      {adding && (
        <Dialog title={`Add a ${declared.one}`} onClose={() => setAdding(false)} wide>
          <RecordForm
            kind={kind}
            row={nothing}
            submit="Store"
            onStore={async (row) => {
              await addRecord(kind, row);
              setAdding(false);
            }}
          />
        </Dialog>
      )}
      {shown && (
        <RecordSheet kind={kind} row={shown} label={labelOf(kind, shown)} onClose={() => setShown(null)} />
      )}
    </Page>
  );
}

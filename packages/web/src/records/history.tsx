import type { HistoryEntry } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { historyQuery } from '../api/queries.ts';
import { Loading, Problem } from '../parts/states.tsx';
import './history.css';
import { fieldName } from './record-values.ts';

/** All that ever happened to a record, newest first: who, when, on which device, what was there before. */
export function History({ kind, id }: { readonly kind: string; readonly id: string }): ReactNode {
  const history = useQuery(historyQuery(kind, id));
  if (history.error) return <Problem error={history.error} again={() => void history.refetch()} />;
  if (!history.data) return <Loading what="Fetching the history" />;
  if (history.data.length === 0) return <p className="soft">Nothing is known of its history.</p>;
  return (
    <ol className="history">
      {history.data.map((entry) => (
        <li key={`${entry.at} ${entry.what} ${entry.fields.map(({ field }) => field).join()}`}>
          <p>
            <strong>{entry.what}</strong> <span className="soft">{circumstances(entry)}</span>
          </p>
          {entry.reason && <p>“{entry.reason}”</p>}
          <Changes fields={entry.fields} made={entry.what === 'made'} />
        </li>
      ))}
    </ol>
  );
}

function circumstances({ at, by, device, via }: HistoryEntry): string {
  const when = new Date(at);
  const day = Number.isNaN(when.getTime())
    ? at
    : when.toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
  return [day, by && `by ${by}`, device && `on ${device}`, via && `by way of ${via}`]
    .filter(Boolean)
    .join(', ');
}

function Changes({
  fields,
  made,
}: {
  readonly fields: HistoryEntry['fields'];
  readonly made: boolean;
}): ReactNode {
  const told = fields.filter(({ before, after }) => (before ?? '') !== (after ?? ''));
  if (told.length === 0) return null;
  return (
    <dl className="history-fields">
      {told.map(({ field, before, after }) => (
        <div key={field}>
          <dt>{fieldName(field)}</dt>
          <dd>
            {!made && <del>{before || 'nothing'}</del>}
            {!made && <span aria-hidden="true"> → </span>}
            {made ? after : <ins>{after || 'nothing'}</ins>}
          </dd>
        </div>
      ))}
    </dl>
  );
}

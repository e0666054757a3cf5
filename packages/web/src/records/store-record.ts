import { type AnyRow, type KindName, kindOf } from '@keelrow/breeding/facts';
import type { RecordStored } from '@keelrow/server/contract';
import { queryClient } from '../api/queries.ts';
import { get, part, send } from '../api/talk.ts';

/** Whatever was shown may hold the record in some form: all of it is asked for anew when next looked at. */
const changed = (): Promise<void> =>
  queryClient.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'note-grid' });

export async function addRecord(kind: KindName, row: AnyRow): Promise<RecordStored> {
  const stored = await send<RecordStored>('POST', `records/${kind}`, { row });
  await changed();
  return stored;
}

/** Changes fields of a record. A fact is never overwritten: a new one with the changed fields takes its place. */
export async function changeRecord(
  kind: KindName,
  before: AnyRow & { readonly id: string },
  fields: AnyRow,
  reason?: string,
): Promise<void> {
  const { id, ...row } = before;
  const why = reason ? { reason } : {};
  if (kindOf(kind).nature === 'fact')
    await send('POST', `records/${kind}/${part(id)}/replace`, { row: { ...row, ...fields }, ...why });
  else await send('PATCH', `records/${kind}/${part(id)}`, { fields, ...why });
  await changed();
}

/** The next free code by the programme's pattern; empty where the kind has none. */
export const nextCode = (kind: KindName, of: string, year: number): Promise<string> =>
  get<{ code: string | null }>(`next-code/${kind}`, { of, year }).then(
    ({ code }) => code ?? '',
    () => '',
  );

export async function withdrawRecord(kind: KindName, id: string, reason: string): Promise<void> {
  await send('POST', `records/${kind}/${part(id)}/withdraw`, { reason });
  await changed();
}

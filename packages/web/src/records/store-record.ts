import type { AnyRow, KindName } from '@keelrow/breeding/facts';
import type { RecordStored } from '@keelrow/server/contract';
import { queryClient } from '../api/queries.ts';
import { part, send } from '../api/talk.ts';

/** Whatever was shown may hold the record in some form: all of it is asked for anew when next looked at. */
const changed = (): Promise<void> =>
  queryClient.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'note-grid' });

export async function addRecord(kind: KindName, row: AnyRow): Promise<RecordStored> {
  const stored = await send<RecordStored>('POST', `records/${kind}`, { row });
  await changed();
  return stored;
}

export async function changeRecord(
  kind: KindName,
  id: string,
  fields: AnyRow,
  reason?: string,
): Promise<void> {
  await send('PATCH', `records/${kind}/${part(id)}`, reason ? { fields, reason } : { fields });
  await changed();
}

export async function withdrawRecord(kind: KindName, id: string, reason: string): Promise<void> {
  await send('POST', `records/${kind}/${part(id)}/withdraw`, { reason });
  await changed();
}

import type { AnyRow } from '@keelrow/breeding/facts';
import type { NoteResidual } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { get, part } from '../api/talk.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Loading, Problem } from '../parts/states.tsx';
import { RecordSheet } from '../records/record-sheet.tsx';

/** One note as it is stored, to be mended or withdrawn. */
export default function OneNote({
  note,
  onClose,
}: {
  readonly note: NoteResidual;
  readonly onClose: () => void;
}): ReactNode {
  const record = useQuery({
    queryKey: ['record', 'notes', note.note],
    queryFn: ({ signal }) => get<{ row: AnyRow | null }>(`records/notes/${part(note.note)}`, {}, signal),
  });
  const label = `on ${note.code}`;
  if (record.data?.row) {
    return (
      <RecordSheet kind="notes" row={{ ...record.data.row, id: note.note }} label={label} onClose={onClose} />
    );
  }
  return (
    <Dialog title={`Note ${label}`} onClose={onClose}>
      {record.error ? (
        <Problem error={record.error} again={() => void record.refetch()} />
      ) : (
        <Loading what="Fetching the note" />
      )}
    </Dialog>
  );
}

import { Link } from '@tanstack/react-router';
import { type ReactNode, useEffect } from 'react';
import { notYetKept } from '../notes/grid-state.ts';
import { useNotesEntered } from '../notes/note-store.ts';
import { counted } from '../parts/words.ts';

/** Notes that are not yet in the records stay in sight on every screen, and the browser asks before it is closed. */
export function WaitingNotes(): ReactNode {
  const waiting = notYetKept(useNotesEntered());
  useEffect(() => {
    if (waiting === 0) return;
    const ask = (event: BeforeUnloadEvent): void => event.preventDefault();
    addEventListener('beforeunload', ask);
    return () => removeEventListener('beforeunload', ask);
  }, [waiting]);
  if (waiting === 0) return null;
  return (
    <Link to="/notes" className="waiting-notes">
      {counted(waiting, 'note')} not kept yet
    </Link>
  );
}

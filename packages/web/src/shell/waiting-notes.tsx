import { Link } from '@tanstack/react-router';
import { type ReactNode, useEffect } from 'react';
import { heldBack } from '../notes/grid-state.ts';
import { useNotesEntered } from '../notes/note-store.ts';
import { counted } from '../parts/words.ts';
import { usePhoneState } from '../phone/use-phone.ts';

/**
 * How many notes and pictures the server does not have yet, on every screen, none as well. What waits is on the disk;
 * only what was typed and cannot be kept as it is would be lost, and then the browser asks before it closes.
 */
export function WaitingNotes(): ReactNode {
  const { waiting, refused, photosWaiting, known } = usePhoneState();
  const typed = heldBack(useNotesEntered());
  useEffect(() => {
    if (typed === 0) return;
    const ask = (event: BeforeUnloadEvent): void => event.preventDefault();
    addEventListener('beforeunload', ask);
    return () => removeEventListener('beforeunload', ask);
  }, [typed]);
  const all = waiting + refused + photosWaiting;
  const facts = waiting + refused;
  const words = [facts > 0 && counted(facts, 'note'), photosWaiting > 0 && counted(photosWaiting, 'picture')]
    .filter(Boolean)
    .join(', ');
  return (
    <Link to="/phone" className={all > 0 ? 'waiting-notes waiting-some' : 'waiting-notes'}>
      <strong>{known ? all : '…'}</strong> waiting
      <span className="for-readers-only">
        {all > 0 ? `: ${words} not handed over yet` : ': everything is handed over'}
      </span>
    </Link>
  );
}

import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { usePhoneState } from '../../phone/use-phone.ts';
import { WaitingTrouble } from './waiting-trouble.tsx';

/** How far the walk is, and how many notes still wait on the phone; the ways to the rounds and to what waits. */
export function WalkBar({
  name,
  last,
  done,
  of,
}: {
  readonly name: string;
  /** What was entered last, as far as it can be undone. */
  readonly last: string | null;
  readonly done: number;
  readonly of: number;
}): ReactNode {
  const { waiting, refused, photosWaiting, shutOut } = usePhoneState();
  return (
    <>
      <header className="walk-bar">
        <Link to="/walk" className="walk-back" aria-label="All rounds">
          ‹
        </Link>
        <span className="walk-name">{last === null ? name : `✓ ${last}`}</span>
        <span className="walk-progress">
          {done} of {of}
        </span>
        <Link
          to="/phone"
          className={refused > 0 || shutOut ? 'walk-waiting walk-waiting-stuck' : 'walk-waiting'}
        >
          {waiting + refused} waiting
          {refused > 0 && `, ${refused} refused`}
          {photosWaiting > 0 && ` +${photosWaiting}`}
        </Link>
      </header>
      <WaitingTrouble shutOut={shutOut} refused={refused} />
    </>
  );
}

import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { usePhoneState } from '../../phone/use-phone.ts';

/** How far the walk is, and how many notes still wait on the phone; the way back to the rounds. */
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
  const { waiting, refused, photosWaiting, trouble } = usePhoneState();
  return (
    <header className="walk-bar">
      <Link to="/walk" className="walk-back" aria-label="All rounds">
        ‹
      </Link>
      <span className="walk-name">{last === null ? name : `✓ ${last}`}</span>
      <span className="walk-progress">
        {done} of {of}
      </span>
      <span
        className={refused > 0 ? 'walk-waiting walk-waiting-refused' : 'walk-waiting'}
        title={trouble ?? undefined}
      >
        {waiting + refused} waiting
        {refused > 0 && `, ${refused} refused`}
        {photosWaiting > 0 && ` +${photosWaiting}`}
      </span>
    </header>
  );
}

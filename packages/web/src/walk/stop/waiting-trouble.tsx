import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { counted } from '../../parts/words.ts';

/**
 * Why notes will not get through by themselves, in words: a phone shows no titles. Being without a signal is not
 * among it: that passes.
 */
export function WaitingTrouble({
  shutOut,
  refused,
}: {
  readonly shutOut: boolean;
  readonly refused: number;
}): ReactNode {
  if (!shutOut && refused === 0) return null;
  return (
    <Link to="/phone" className="walk-stuck">
      {shutOut
        ? 'This phone is not let in any more; its notes stay on it. '
        : `${counted(refused, 'note')} came back refused: mend or throw away. `}
      <u>{shutOut ? 'What to do' : 'See why'}</u>
    </Link>
  );
}

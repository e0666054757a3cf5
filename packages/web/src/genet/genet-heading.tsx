import type { GenetPage } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { counted } from '../parts/words.ts';
import { parentage } from '../plants/plant-columns.tsx';

/** What it is, in one line. */
export function GenetHeading({ genet }: { readonly genet: GenetPage['genet'] }): ReactNode {
  const parts: ReactNode[] = [
    genet.taxon && <i>{genet.taxon}</i>,
    genet.origin,
    parentage(genet) && `from ${parentage(genet)}`,
    genet.raisedIn && `raised ${genet.raisedIn}`,
    genet.plants === 0 ? 'no plants yet' : `${genet.alive} of ${counted(genet.plants, 'plant')} alive`,
    genet.standard && 'grown as a standard',
    genet.decision && `decision: ${genet.decision}`,
  ].filter(Boolean);
  return parts.map((part, index) => (
    // The parts are fixed in number and order; none of them moves.
    <span key={String(index)}>
      {index > 0 && ' · '}
      {part}
    </span>
  ));
}

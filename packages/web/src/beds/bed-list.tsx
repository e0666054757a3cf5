import type { BedShown } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { counted } from '../parts/words.ts';

export const conditionsOf = ({ light, moisture, soil }: BedShown): string =>
  [light, moisture, soil].filter(Boolean).join(', ');

export function BedList({ beds }: { readonly beds: readonly BedShown[] }): ReactNode {
  return (
    <ul className="bed-list">
      {beds.map((bed) => (
        <li key={bed.id}>
          <Link to="/beds/$bed" params={{ bed: bed.code }}>
            {bed.code}
          </Link>{' '}
          {bed.name !== bed.code && bed.name} <span className="soft">{counted(bed.plants, 'plant')}</span>
          <span className="small soft"> {conditionsOf(bed)}</span>
        </li>
      ))}
    </ul>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { PictureList } from '../pictures/picture-list.tsx';
import { picturesQuery } from '../pictures/queries.ts';

const shownHere = 12;

/** The latest pictures and memos of a genet's plants; nothing where there are none. */
export function GenetPictures({ genet, code }: { readonly genet: string; readonly code: string }): ReactNode {
  const found = useQuery(picturesQuery({ genet }, 0, shownHere)).data;
  if (!found || found.total === 0) return null;
  return (
    <section aria-labelledby="pictures-of" className="genet-wide">
      <h2 id="pictures-of">Pictures and memos</h2>
      <PictureList pictures={found.pictures} />
      {found.total > found.pictures.length && (
        <p>
          <Link to="/pictures" search={{ search: code }}>
            All {found.total}
          </Link>
        </p>
      )}
    </section>
  );
}

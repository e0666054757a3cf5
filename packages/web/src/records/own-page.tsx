import { type AnyRow, type KindName, keptAs, type TraitSort } from '@keelrow/breeding/facts';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';

/** A link to the page that a record has beyond its form: a genet's, a brief's, a bed's, that of a trait that can be estimated. */
export function ownPage(kind: KindName, row: AnyRow): ReactNode {
  const code = String(row.code ?? '');
  const words = `page of ${code}`;
  switch (kind) {
    case 'genets':
      return (
        <Link to="/plants/$genet" params={{ genet: code }} preload={false}>
          {words}
        </Link>
      );
    case 'briefs':
      return (
        <Link to="/briefs/$brief" params={{ brief: code }}>
          {words}
        </Link>
      );
    case 'traits':
      return ['number', 'date'].includes(keptAs[row.sort as TraitSort]) ? (
        <Link to="/traits/$trait" params={{ trait: code }}>
          {words}
        </Link>
      ) : null;
    default:
      return null;
  }
}

/** Kinds of which some records have such a page. */
export const haveOwnPages: readonly KindName[] = ['genets', 'briefs', 'traits'];

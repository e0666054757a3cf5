import { kindOf } from '@keelrow/breeding/facts';
import type { ReactNode } from 'react';
import { capital } from '../parts/words.ts';
import { usualKinds } from './use-import.ts';

/** Sheets to fill in, for those who have none of their own. */
export function Templates(): ReactNode {
  return (
    <section className="templates" aria-labelledby="templates">
      <h2 id="templates">Or start from a sheet of ours</h2>
      <p className="soft">A header and one example row each, to be filled in with any spreadsheet program.</p>
      <ul>
        {usualKinds.map((kind) => (
          <li key={kind}>
            <a href={`/api/export/${kind}.csv?template=1`} download={`${kind}.csv`}>
              {capital(kindOf(kind).many)}
            </a>{' '}
            <span className="soft small">{kindOf(kind).about}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

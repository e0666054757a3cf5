import type { GenetPage } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Icon } from '../parts/icon.tsx';
import './terms-and-cautions.css';

/** What binds the plant, and what to beware of: plain lines, there only where they matter. */
export function TermsAndCautions({ terms, cautions }: Pick<GenetPage, 'terms' | 'cautions'>): ReactNode {
  if (terms.length === 0 && cautions.length === 0) return null;
  return (
    <section className="cautions" aria-labelledby="cautions-of">
      <h2 id="cautions-of">To heed</h2>
      <ul>
        {terms.map((term) => (
          <li key={`${term.code} ${term.through}`}>
            <Icon name="file" size={18} />
            <span>
              {term.asks}{' '}
              <span className="soft small">
                asked by {term.fromWhom}, through {term.through} ({term.code})
              </span>
            </span>
          </li>
        ))}
        {cautions.map((caution) => (
          <li key={caution}>
            <Icon name="heed" size={18} />
            <span>{caution}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

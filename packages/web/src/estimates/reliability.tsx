import type { ReactNode } from 'react';
import './reliability.css';
import { shareTold } from './reliability-words.ts';

/** How much is told of what sets a genet apart: a short bar, with the share beside it. */
export function Reliability({
  value,
  words,
}: {
  readonly value: number | null;
  /** The whole sentence, for those who hover or hear the page. */
  readonly words: string;
}): ReactNode {
  return (
    <span className="reliability" title={words}>
      <svg width="44" height="10" aria-hidden="true">
        <rect className="reliability-whole" x="0.5" y="0.5" width="43" height="9" rx="2" />
        {value !== null && (
          <rect className="reliability-told" x="0.5" y="0.5" width={43 * value} height="9" rx="2" />
        )}
      </svg>
      <span aria-hidden="true">{shareTold(value)}</span>
      <span className="for-readers-only">{words}</span>
    </span>
  );
}

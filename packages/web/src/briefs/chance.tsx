import type { ReactNode } from 'react';
import { chanceShown } from '../compare/pair-words.ts';

/** A chance as a bar and in per cent; said where it cannot be told. */
export function Chance({
  chance,
  title,
}: {
  readonly chance: number | null;
  readonly title?: string;
}): ReactNode {
  if (chance === null)
    return (
      <span className="chance soft" title={title}>
        cannot be told
      </span>
    );
  return (
    <span className="chance" title={title}>
      <svg width="48" height="10" aria-hidden="true">
        <rect className="chance-whole" x="0.5" y="0.5" width="47" height="9" rx="2" />
        <rect className="chance-part" x="0.5" y="0.5" width={47 * chance} height="9" rx="2" />
      </svg>
      {chanceShown(chance).replace('more than ', '>').replace('less than ', '<')}
    </span>
  );
}

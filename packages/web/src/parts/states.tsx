import type { ReactNode } from 'react';
import { wordsOf } from '../api/api-error.ts';
import { Button } from './button.tsx';
import { Icon } from './icon.tsx';
import './states.css';

export function Loading({ what }: { readonly what: string }): ReactNode {
  return (
    <p className="loading" role="status">
      <span className="loading-stem" aria-hidden="true" />
      {what}
    </p>
  );
}

/** What went wrong, what would mend it, and another try where that can help. */
export function Problem({
  error,
  again,
}: {
  readonly error: unknown;
  readonly again?: () => void;
}): ReactNode {
  const { problem, remedy } = wordsOf(error);
  return (
    <div className="problem" role="alert">
      <Icon name="heed" />
      <div>
        <p>{problem}</p>
        {remedy && <p className="soft">{remedy}</p>}
      </div>
      {again && <Button onClick={again}>Try again</Button>}
    </div>
  );
}

/** There is nothing to show, why, and what would bring something here. */
export function Nothing({
  title,
  children,
}: {
  readonly title: string;
  readonly children?: ReactNode;
}): ReactNode {
  return (
    <div className="nothing">
      <h2>{title}</h2>
      {children}
    </div>
  );
}

export function Progress({
  share,
  words,
}: {
  readonly share: number | null;
  readonly words: string;
}): ReactNode {
  return (
    <div className="progress">
      <progress aria-label={words} {...(share === null ? {} : { value: share })} max={1} />
      <span className="small soft" role="status">
        {words}
        {share === null ? '' : ` ${Math.floor(share * 100)}%`}
      </span>
    </div>
  );
}

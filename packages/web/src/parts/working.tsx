import type { ReactNode } from 'react';
import type { Work } from '../api/jobs.ts';
import { Button } from './button.tsx';
import { Problem, Progress } from './states.tsx';
import './working.css';

/** How far long work is, with a button that stops it; what went wrong; and the way to begin it again. */
export function Working({
  work,
  words,
  again,
}: {
  readonly work: Work<unknown>;
  readonly words: string;
  readonly again: () => void;
}): ReactNode {
  if (work.busy) {
    return (
      <div className="working">
        <Progress
          share={work.state?.progress ?? null}
          words={work.state?.step ? `${words}: ${work.state.step}` : words}
        />
        <Button onClick={work.stop}>Stop</Button>
      </div>
    );
  }
  if (work.error !== null) return <Problem error={work.error} again={again} />;
  if (work.state?.state !== 'stopped') return null;
  return (
    <p className="working">
      Stopped. <Button onClick={again}>Work it out</Button>
    </p>
  );
}

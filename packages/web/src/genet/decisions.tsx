import type { DecisionShown } from '@keelrow/server/contract';
import { lazy, type ReactNode, Suspense, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { dateInWords } from '../parts/words.ts';
import './decisions.css';

const Decide = lazy(() => import('./decide.tsx'));

export function Decisions({
  genet,
  decisions,
}: {
  readonly genet: string;
  readonly decisions: readonly DecisionShown[];
}): ReactNode {
  const [deciding, setDeciding] = useState(false);
  return (
    <>
      {decisions.length === 0 ? (
        <p className="soft">Nothing decided yet.</p>
      ) : (
        <ol className="decisions">
          {decisions.map((decision) => (
            <li key={`${decision.on} ${decision.decision} ${decision.about} ${decision.by}`}>
              <strong>{decision.decision}</strong>{' '}
              <span className="small soft">
                {dateInWords(decision.on)}
                {decision.by && `, ${decision.by}`}
                {decision.about !== '' && decision.about !== genet && `, on ${decision.about}`}
              </span>
              {decision.reason && <p>{decision.reason}</p>}
            </li>
          ))}
        </ol>
      )}
      <div>
        <Button onClick={() => setDeciding(true)}>Decide</Button>
      </div>
      {deciding && (
        <Suspense>
          <Decide genet={genet} onClose={() => setDeciding(false)} />
        </Suspense>
      )}
    </>
  );
}

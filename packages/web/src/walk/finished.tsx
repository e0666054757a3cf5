import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { counted } from '../parts/words.ts';
import type { HoldingsInHand } from '../phone/use-holdings.ts';
import { arriveAt, nextStop, progress } from './order/next-stop.ts';
import type { RoundInHand } from './round-in-hand.ts';
import type { Round } from './rounds/round.ts';
import { againFrom, standingAt } from './rounds/round-changes.ts';
import { rounds } from './rounds/round-store.ts';
import type { Entering } from './use-entering.ts';

/** The end of the bed: what was passed over, and what may come next. */
export function Finished({
  round,
  inHand,
  garden,
  entering: { undo, busy, trouble },
}: {
  readonly round: Round;
  readonly inHand: RoundInHand;
  readonly garden: HoldingsInHand;
  readonly entering: Entering;
}): ReactNode {
  const { done, of } = progress(inHand.walk);
  const left = of - done;
  const first = nextStop(inHand.walk, null);
  const change = (to: (now: Round) => Round): void => rounds.change(round.id, to);
  return (
    <main className="walk-end">
      <h1>{of === 0 ? 'Nothing to walk here' : left === 0 ? 'All noted' : 'The end of the walk'}</h1>
      {of === 0 && (
        <p>No plants stand in these beds by the records on this phone, or the round’s traits are gone.</p>
      )}
      {left > 0 && <p>{counted(left, 'plant')} passed over.</p>}
      {round.drafts.length > 0 && (
        <ul className="walk-found">
          {round.drafts.map((draft) => {
            const plant = garden.plant(draft.plant);
            return plant ? (
              <li key={`${draft.plant} ${draft.trait}`}>
                <button
                  type="button"
                  className="walk-key"
                  onClick={() => change((now) => standingAt(now, arriveAt(inHand.walk, draft.plant)))}
                >
                  Begun and not kept: <strong>{plant.code}</strong> “{draft.typed}”
                </button>
              </li>
            ) : null;
          })}
        </ul>
      )}
      {trouble && (
        <p className="walk-refused" role="alert">
          {trouble}
        </p>
      )}
      <div className="walk-plain-foot">
        {first && (
          <button type="button" className="walk-keep" onClick={() => change((now) => standingAt(now, first))}>
            Go to the first of them
          </button>
        )}
        {round.steps.length > 0 && (
          <button type="button" className="walk-key" disabled={busy} onClick={() => void undo()}>
            Undo {round.steps.at(-1)!.words}
          </button>
        )}
        {of > 0 && (
          <button
            type="button"
            className="walk-key"
            onClick={() => change((now) => againFrom(now, garden.today))}
          >
            Walk it anew from today
          </button>
        )}
        <Link to="/walk" className="walk-key">
          All rounds
        </Link>
      </div>
    </main>
  );
}

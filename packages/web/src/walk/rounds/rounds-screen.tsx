import { Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { Button } from '../../parts/button.tsx';
import { Page } from '../../parts/page.tsx';
import { counted, dateInWords } from '../../parts/words.ts';
import { type HoldingsInHand, useHoldings } from '../../phone/use-holdings.ts';
import { progress } from '../order/next-stop.ts';
import { roundInHand } from '../round-in-hand.ts';
import type { Round } from './round.ts';
import { rounds, useRounds } from './round-store.ts';
import './rounds.css';

/** The rounds on this phone: how far each is, and on with it. */
export function Rounds(): ReactNode {
  const all = useRounds();
  const garden = useHoldings();
  return (
    <Page
      title="Walk"
      line="Rounds on this device; each goes on where it stopped."
      actions={
        <Link to="/walk/new" className="button button-main rounds-new">
          New round
        </Link>
      }
    >
      {all.length === 0 && (
        <p className="rounds-none">
          None yet. A round is what you go out to note: which beds, which traits, which way round.
        </p>
      )}
      <ul className="rounds">
        {all.map((round) => (
          <RoundLine key={round.id} round={round} garden={garden} />
        ))}
      </ul>
    </Page>
  );
}

function RoundLine({
  round,
  garden,
}: {
  readonly round: Round;
  readonly garden: HoldingsInHand | null;
}): ReactNode {
  const [asks, setAsks] = useState(false);
  const inHand = garden && roundInHand(round, garden);
  const far = inHand && progress(inHand.walk);
  return (
    <li>
      <Link to="/walk/$round" params={{ round: round.id }} className="round-open">
        <strong>{round.name}</strong>
        {far && (
          <>
            <span className="round-far">
              {far.done} of {counted(far.of, 'plant')}
              {inHand.stop && !round.ended && `, next ${inHand.stop.plant.code}`}
            </span>
            <progress value={far.done} max={Math.max(1, far.of)} aria-label={`${round.name}: done`} />
          </>
        )}
        <span className="soft">
          since {dateInWords(round.since)}
          {round.drafts.length > 0 && `, ${counted(round.drafts.length, 'box', 'boxes')} begun and not kept`}
        </span>
      </Link>
      {asks ? (
        <div className="round-away">
          <p>Its notes stay. Put the round away?</p>
          <Button look="danger" onClick={() => rounds.putAway(round.id)}>
            Put away
          </Button>
          <Button onClick={() => setAsks(false)}>Leave it</Button>
        </div>
      ) : (
        <Button look="quiet" onClick={() => setAsks(true)} aria-label={`Put away ${round.name}`}>
          Put away
        </Button>
      )}
    </li>
  );
}

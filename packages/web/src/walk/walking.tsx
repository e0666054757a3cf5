import type { ReactNode } from 'react';
import type { HoldingsInHand } from '../phone/use-holdings.ts';
import { Finished } from './finished.tsx';
import { progress } from './order/next-stop.ts';
import { roundInHand } from './round-in-hand.ts';
import type { Round } from './rounds/round.ts';
import { AtStop } from './stop/at-stop.tsx';
import { WalkBar } from './stop/walk-bar.tsx';
import { useEntering } from './use-entering.ts';

/** A round under way: the stop at which it stands, or its end. */
export function Walking({
  round,
  garden,
}: {
  readonly round: Round;
  readonly garden: HoldingsInHand;
}): ReactNode {
  const inHand = roundInHand(round, garden);
  const { stop } = inHand;
  const entering = useEntering(round, inHand, stop);
  const { done, of } = progress(inHand.walk);
  return (
    <div className={stop ? 'walk' : 'walk walk-plain'} aria-busy={entering.busy}>
      <WalkBar
        name={round.name}
        last={round.steps.at(-1)?.words.replace(/^.*?: /, '') ?? null}
        done={done}
        of={of}
      />
      <p className="for-readers-only" role="status">
        {entering.told}
        {stop && `. ${stop.plant.code}, ${stop.trait.name}`}
      </p>
      {stop ? (
        <AtStop
          key={`${stop.plant.id} ${stop.trait.id}`}
          round={round}
          inHand={inHand}
          at={stop}
          garden={garden}
          entering={entering}
        />
      ) : (
        <Finished round={round} inHand={inHand} garden={garden} entering={entering} />
      )}
    </div>
  );
}

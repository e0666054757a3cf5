import { useNavigate } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { newId } from '../../api/uuid7.ts';
import { Button } from '../../parts/button.tsx';
import { Page } from '../../parts/page.tsx';
import { type HoldingsInHand, useHoldings } from '../../phone/use-holdings.ts';
import { NoGarden } from '../no-garden.tsx';
import { isPlaced } from '../order/rows-of-bed.ts';
import { DirectionChoice } from './direction-choice.tsx';
import { InOrder } from './in-order.tsx';
import type { Direction } from './round.ts';
import { roundName } from './round-name.ts';
import { rounds } from './round-store.ts';
import './rounds.css';

/** Which beds, which traits, which way round. */
export function NewRound(): ReactNode {
  const garden = useHoldings();
  return garden ? <Choosing garden={garden} /> : <NoGarden />;
}

const asNumbered: Direction = { way: 'numbered', end: 'first', side: 'first' };

function Choosing({ garden }: { readonly garden: HoldingsInHand }): ReactNode {
  const [beds, setBeds] = useState<readonly string[]>([]);
  const [traits, setTraits] = useState<readonly string[]>([]);
  const [direction, setDirection] = useState<Direction>(asNumbered);
  const [name, setName] = useState('');
  const navigate = useNavigate();
  const planted = garden.places
    .map((place) => ({ place, plants: garden.plantsInBed(place.id) }))
    .filter(({ plants }) => plants.length > 0);
  // Notes on labels are taken on every walk by a button of their own.
  const offered = garden.traits.filter(({ code }) => code !== 'label');
  const nameOf = <One extends { id: string; name: string | null; code: string }>(
    all: readonly One[],
    ids: readonly string[],
  ): string[] => ids.map((id) => all.find((one) => one.id === id)).map((one) => one?.name ?? one?.code ?? '');
  const usualName = roundName(nameOf(garden.traits, traits), nameOf(garden.places, beds));
  const ready = beds.length > 0 && traits.length > 0;

  const start = (): void => {
    const id = newId();
    rounds.add({
      id,
      name: name.trim() || usualName,
      beds,
      traits,
      direction,
      since: garden.today,
      at: null,
      ended: false,
      backTo: null,
      steps: [],
      drafts: [],
      yesterdayOf: null,
    });
    void navigate({ to: '/walk/$round', params: { round: id } });
  };

  return (
    <Page title="New round">
      <div className="round-new">
        <InOrder
          title="Beds"
          hint="in the order in which you walk them"
          choices={planted.map(({ place, plants }) => ({
            id: place.id,
            name: place.name ?? place.code,
            beside: String(plants.length),
          }))}
          chosen={beds}
          onChoose={setBeds}
        />
        <InOrder
          title="Traits"
          hint="in the order in which you note them"
          choices={offered.map((trait) => ({ id: trait.id, name: trait.name, beside: trait.sort }))}
          chosen={traits}
          onChoose={setTraits}
        />
        <DirectionChoice
          direction={direction}
          onChoose={setDirection}
          measured={beds.every((bed) => garden.plantsInBed(bed).every(isPlaced))}
        />
        <label className="round-name">
          Name
          <input
            value={name}
            placeholder={ready ? usualName : 'made from beds and traits'}
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        <div className="round-start">
          <Button look="main" disabled={!ready} onClick={start}>
            {ready ? 'Start the walk' : 'Choose a bed and a trait'}
          </Button>
        </div>
      </div>
    </Page>
  );
}

import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useEffect } from 'react';
import { useHoldings } from '../phone/use-holdings.ts';
import { NoGarden } from './no-garden.tsx';
import { useRounds } from './rounds/round-store.ts';
import { Walking } from './walking.tsx';
import './walk.css';
import './entries/entries.css';
import './sheets/sheets.css';

const route = getRouteApi('/walk/$round');

/** One plant after the other, one trait at a time: for a thumb, in the sun, without a signal. */
export function Walk(): ReactNode {
  const { round: id } = route.useParams();
  const garden = useHoldings();
  const round = useRounds().find((one) => one.id === id);
  useEffect(() => {
    document.title = `${round?.name ?? 'Walk'} · Keelrow`;
  }, [round?.name]);
  if (!round) {
    return (
      <div className="walk walk-plain">
        <h1>This round is not on this phone</h1>
        <Link to="/walk" className="walk-keep">
          All rounds
        </Link>
      </div>
    );
  }
  if (!garden) return <NoGarden />;
  return <Walking round={round} garden={garden} />;
}

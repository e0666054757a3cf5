import { Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { wordsOf } from '../api/api-error.ts';
import { phone } from '../phone/store.ts';
import './walk.css';

/** The phone was never where it could fetch the garden, or its disk was cleared. */
export function NoGarden(): ReactNode {
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const fetchNow = async (): Promise<void> => {
    setBusy(true);
    setTrouble(null);
    await phone.fetchHoldings().catch((error: unknown) => setTrouble(wordsOf(error).problem));
    setBusy(false);
  };
  return (
    <div className="walk walk-plain">
      <h1>No garden on this phone yet</h1>
      <p>Plants and traits are fetched once where there is a connection; after that the walk needs none.</p>
      {trouble && (
        <p className="walk-refused" role="alert">
          {trouble}
        </p>
      )}
      <button type="button" className="walk-keep" disabled={busy} onClick={() => void fetchNow()}>
        {busy ? 'Fetching' : 'Fetch the garden'}
      </button>
      <Link to="/walk" className="walk-key">
        All rounds
      </Link>
    </div>
  );
}

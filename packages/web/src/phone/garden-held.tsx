import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Problem } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { phone } from './store.ts';
import { useLive } from './use-live.ts';

const held = async () => ({
  plants: await phone.db.plants.count(),
  fetchedAt: (await phone.db.held.get('holdings'))?.fetchedAt ?? null,
});

/** What this device knows of the garden without a network, and how old that is. */
export function GardenHeld(): ReactNode {
  const now = useLive(held);
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const fetchIt = async (): Promise<void> => {
    setBusy(true);
    setError(null);
    await phone.fetchHoldings().catch(setError);
    setBusy(false);
  };
  return (
    <section aria-labelledby="garden-title">
      <h2 id="garden-title">The garden on this device</h2>
      <p role="status">
        {now?.fetchedAt
          ? `${counted(now.plants, 'plant')} with their latest notes, fetched ${new Date(now.fetchedAt).toLocaleString()}.`
          : 'Nothing yet. Fetch it once with a network, then the walk works without one.'}
      </p>
      <p className="phone-buttons">
        <Button disabled={busy} onClick={() => void fetchIt()}>
          {busy ? 'Fetching' : 'Fetch the garden now'}
        </Button>
      </p>
      {error !== null && <Problem error={error} />}
    </section>
  );
}

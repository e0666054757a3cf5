import { liveQuery } from 'dexie';
import { useEffect, useState } from 'react';

/** What a query on the phone's disk answers, kept up to date; undefined until it has. ask must stay the same function. */
export function useLive<Answer>(ask: () => Promise<Answer>): Answer | undefined {
  const [answer, setAnswer] = useState<Answer>();
  useEffect(() => {
    const following = liveQuery(ask).subscribe({ next: setAnswer, error: () => undefined });
    return () => following.unsubscribe();
  }, [ask]);
  return answer;
}

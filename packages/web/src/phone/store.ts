import { lineToServer } from './line.ts';
import { Phone } from './phone.ts';
import { PhoneDatabase } from './phone-database.ts';

/** A server on this computer answers without any network. */
const ownNames: readonly string[] = ['localhost', '127.0.0.1', '[::1]'];

/** How long one window waits for another that is handing over; that one takes along what this one entered. */
const turnAfter = 20_000;

/** Web Locks where the browser has them; without, facts may be sent twice, which stores them once. */
async function alone(name: string, work: () => Promise<void>): Promise<void> {
  if (!navigator.locks) return work();
  await navigator.locks
    .request(name, { signal: AbortSignal.timeout(turnAfter) }, work)
    .catch((error: unknown) => {
      if (!(error instanceof DOMException && ['AbortError', 'TimeoutError'].includes(error.name)))
        throw error;
    });
}

/** The one phone of this browser; the office's note grid uses it as well. */
export const phone = new Phone(new PhoneDatabase(), lineToServer, {
  now: () => new Date(),
  alone,
  persist: async () => (navigator.storage?.persist ? navigator.storage.persist() : null),
  persisted: async () => (navigator.storage?.persisted ? navigator.storage.persisted() : false),
  offLine: () => navigator.onLine === false && !ownNames.includes(location.hostname),
});

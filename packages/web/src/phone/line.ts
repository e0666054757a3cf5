import type { FactsTaken, FactsToTake, Holdings, PhotoHandedOver } from '@keelrow/server/contract';
import { ApiError, outOfReach } from '../api/api-error.ts';
import { get, part, putBytes, send } from '../api/talk.ts';

/** What the phone says to the server. Throws ApiError alone; status 0 where there was no answer that could be read. */
export interface Line {
  takeFacts(facts: FactsToTake): Promise<FactsTaken>;
  takePhoto(hash: string, bytes: ArrayBuffer, mediaType: string): Promise<PhotoHandedOver>;
  /** since: number of the act up to which the phone knows; null for all. */
  holdings(since: number | null): Promise<Holdings>;
}

/** Whatever cut an answer off, or was no answer of Keelrow's (a hotel's network answers with pages of its own). */
async function answered<Answer>(
  asked: Promise<Answer>,
  wellFormed: (answer: Answer) => boolean,
): Promise<Answer> {
  const answer = await asked.catch((error: unknown) => {
    throw error instanceof ApiError ? error : outOfReach();
  });
  if (!answer || typeof answer !== 'object' || !wellFormed(answer)) throw outOfReach();
  return answer;
}

/** On the edge of a network a request can hang for ever; then the next try must not wait for it. */
const patience = 60_000;
const patienceWithPhoto = 180_000;

export const lineToServer: Line = {
  takeFacts: (facts) =>
    answered(send<FactsTaken>('POST', 'phone/facts', facts, AbortSignal.timeout(patience)), ({ results }) =>
      Array.isArray(results),
    ),
  takePhoto: (hash, bytes, mediaType) =>
    answered(
      putBytes<PhotoHandedOver>(
        `photos/${part(hash)}`,
        bytes,
        mediaType,
        AbortSignal.timeout(patienceWithPhoto),
      ),
      (answer) => typeof answer.hash === 'string',
    ),
  holdings: (since) =>
    answered(get<Holdings>('phone/holdings', { since }, AbortSignal.timeout(patience)), ({ plants }) =>
      Array.isArray(plants),
    ),
};

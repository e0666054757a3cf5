import { ApiError } from '../api/api-error.ts';
import { factToTake, type KeptFact } from './facts.ts';
import type { Line } from './line.ts';
import type { Queue } from './queue.ts';

/** The server takes this many facts at a time. */
const most = 500;
/** Answers that say that something in the batch cannot be read; sent one by one it shows which. */
const unreadable = [400, 409, 413, 422];

/**
 * Hands over what waits, first made first; each batch waits for the answer to the one before, so that a correction
 * never overtakes what it corrects. Ends when nothing waits; throws ApiError where the server cannot be reached, does
 * not let the phone in, or has no answer: then all that was not confirmed still waits.
 */
export async function handOverFacts(queue: Queue, line: Line, now: () => Date): Promise<void> {
  for (;;) {
    const batch = await queue.nextToSend(most);
    if (batch.length === 0) return;
    const settled = await sendBatch(batch, queue, line, now);
    if (settled === 0) throw new ApiError(502, { problem: 'The server answered, but not for these notes.' });
  }
}

async function sendBatch(
  batch: readonly KeptFact[],
  queue: Queue,
  line: Line,
  now: () => Date,
): Promise<number> {
  try {
    const taken = await line.takeFacts({ saidAt: now().toISOString(), facts: batch.map(factToTake) });
    return await queue.settle(batch, taken);
  } catch (error) {
    if (!(error instanceof ApiError) || !unreadable.includes(error.status)) throw error;
    if (batch.length === 1) {
      return queue.settle(batch, { results: [{ id: batch[0]!.id, problem: error.message }], upTo: 0 });
    }
    const half = Math.ceil(batch.length / 2);
    const first = await sendBatch(batch.slice(0, half), queue, line, now);
    // The first half may have changed what the second corrects: it is read again by the next round.
    return first > 0 ? first : sendBatch(batch.slice(half), queue, line, now);
  }
}

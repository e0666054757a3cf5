import { readUnsettled, settleNotes } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { Settled, Unsettled } from '../contract/phone.ts';
import { actOf } from '../given.ts';
import type { Serving } from '../serving.ts';

const ids = z.array(z.string()).max(50);
const settled: z.ZodType<Settled> = z.object({ keep: ids, strike: ids, reason: z.string().max(2000) });

/** Notes that say different things of one plant, and which of them hold. */
export function unsettledRoutes(app: FastifyInstance, { programme }: Serving): void {
  app.get('/api/unsettled', async (): Promise<Unsettled> => ({ cases: await readUnsettled(programme.read) }));
  app.post('/api/unsettled/settle', async (request) => {
    await settleNotes(programme, actOf(request), settled.parse(request.body));
    return {};
  });
}

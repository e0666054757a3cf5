import { phoneKey, readPhones, shutPhoneOut } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PhoneKey, Phones, PhoneToLetIn } from '../contract/phone.ts';
import { actOf } from '../given.ts';
import { RefusedError } from '../refusals.ts';
import type { Serving } from '../serving.ts';

/** Lets phones in, lists them and shuts them out. */
export function phonesRoutes(app: FastifyInstance, { programme, open, reach }: Serving): void {
  app.get('/api/phones', async (): Promise<Phones> => ({ ...(await readPhones(programme.read)), ...reach }));
  app.post('/api/phones/let-in', async (request): Promise<PhoneKey> => {
    if (open) {
      throw new RefusedError(409, {
        problem: 'this server was started for this computer alone, so no phone can reach it',
        remedy: 'start it with --lan instead of --open',
      });
    }
    const { person }: PhoneToLetIn = z.object({ person: z.string() }).parse(request.body);
    return phoneKey(programme, actOf(request), person, new Date());
  });
  app.post('/api/phones/:id/shut-out', async (request) => {
    await shutPhoneOut(programme, actOf(request), (request.params as { id: string }).id);
    return {};
  });
}

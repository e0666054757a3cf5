import { isDate } from '@keelrow/breeding/facts';
import { readPictures } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { Pictures } from '../contract/pictures.ts';
import { wholeNumber } from '../given.ts';
import type { Serving } from '../serving.ts';

const day = z.string().refine(isDate, 'a date such as 2031-05-20 is wanted');
const wanted = z.object({
  genet: z.string().max(60).optional(),
  search: z.string().max(200).optional(),
  trait: z.string().max(100).optional(),
  from: day.optional(),
  to: day.optional(),
  offset: wholeNumber(0, 10_000_000).default(0),
  limit: wholeNumber(1, 200).default(60),
});

/** Pictures and memos found again by plant, trait and day. */
export function pictureRoutes(app: FastifyInstance, { programme }: Serving): void {
  app.get('/api/pictures', { config: { role: 'guest' } }, async (request): Promise<Pictures> => {
    const given = Object.fromEntries(
      Object.entries(request.query as object).filter(([, value]) => value !== ''),
    );
    // What was not given is left out of what is asked for.
    const asked = Object.fromEntries(
      Object.entries(wanted.parse(given)).filter(([, value]) => value !== undefined),
    ) as unknown as Parameters<typeof readPictures>[1];
    return readPictures(programme.read, asked);
  });
}

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { JobStarted } from '../contract/programme.ts';
import type { Serving } from '../serving.ts';

export function briefRoutes(app: FastifyInstance, { jobs }: Serving): void {
  app.post('/api/briefs/match', { config: { role: 'recorder' } }, async (request): Promise<JobStarted> => {
    const { brief } = z.object({ brief: z.string().min(1, 'name a brief') }).parse(request.body);
    return { job: jobs.start({ name: 'match', brief }, `genets held against ${brief}`) };
  });
}

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { JobStarted } from '../contract/programme.ts';
import type { Serving } from '../serving.ts';

export function estimateRoutes(app: FastifyInstance, { jobs }: Serving): void {
  app.post('/api/estimates', { config: { role: 'recorder' } }, async (request): Promise<JobStarted> => {
    const { trait } = z.object({ trait: z.string().min(1, 'name a trait') }).parse(request.body);
    return { job: jobs.start({ name: 'estimates', trait }, `estimates of ${trait}`) };
  });
  app.post(
    '/api/estimates/compare',
    { config: { role: 'recorder' } },
    async (request): Promise<JobStarted> => {
      const { trait, a, b } = z
        .object({ trait: z.string(), a: z.string(), b: z.string() })
        .parse(request.body);
      return { job: jobs.start({ name: 'compare', trait, a, b }, `two genets compared for ${trait}`) };
    },
  );
}

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { JobStarted } from '../contract/programme.ts';
import type { Task } from '../jobs/tasks.ts';
import type { Serving } from '../serving.ts';

const trait = z.string().min(1, 'name a trait');

export function estimateRoutes(app: FastifyInstance, { jobs }: Serving): void {
  const starting = (path: string, taskOf: (body: unknown) => Task, about: (task: Task) => string) =>
    app.post(path, { config: { role: 'recorder' } }, async (request): Promise<JobStarted> => {
      const task = taskOf(request.body);
      return { job: jobs.start(task, about(task)) };
    });
  const named = (words: string) => (task: Task) => `${words} ${'trait' in task ? task.trait : ''}`.trim();

  starting(
    '/api/estimates',
    (body) => ({ name: 'estimates', ...z.object({ trait }).parse(body) }),
    named('estimates of'),
  );
  starting(
    '/api/estimates/compare',
    (body) => ({ name: 'compare', ...z.object({ trait, a: z.string(), b: z.string() }).parse(body) }),
    named('two genets compared for'),
  );
  starting(
    '/api/estimates/information',
    (body) => ({ name: 'information', ...z.object({ trait, genet: z.string() }).parse(body) }),
    named('where an estimate came from:'),
  );
  starting(
    '/api/estimates/best',
    (body) => ({
      name: 'best',
      ...z.object({ trait, k: z.int().min(1, 'at least one can be the best') }).parse(body),
    }),
    named('chances to be among the best for'),
  );
  starting(
    '/api/estimates/model',
    (body) => ({ name: 'model', ...z.object({ trait }).parse(body) }),
    named('the model of'),
  );
  starting(
    '/api/estimates/winters',
    () => ({ name: 'winters' }),
    () => 'how plants come through winters',
  );
}

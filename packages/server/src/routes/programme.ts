import { kindNames, programmeSettings } from '@keelrow/breeding/facts';
import { countRecords, readSettings, todayIn, writeSettings } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import type { JobStarted, ProgrammeState } from '../contract/programme.ts';
import { actOf } from '../given.ts';
import type { Serving } from '../serving.ts';

export function programmeRoutes(app: FastifyInstance, { programme, jobs, open, build }: Serving): void {
  app.get(
    '/api/programme',
    { config: { role: 'anyone' } },
    async (request): Promise<ProgrammeState | { open: boolean; person: null }> => {
      if (!request.visitor) return { open, person: null };
      const settings = (await readSettings(programme.read))!;
      const { code, name, role } = request.visitor;
      return {
        settings,
        counts: await countRecords(programme.read, kindNames),
        person: { code, name, role },
        open,
        today: todayIn(settings.timeZone, new Date()),
        warnings: programme.warnings,
        build,
      };
    },
  );
  app.patch('/api/programme', async (request) => {
    const before = (await readSettings(programme.read))!;
    const settings = programmeSettings.parse({ ...before, ...(request.body as object) });
    await writeSettings(programme.write, settings);
    return { settings };
  });
  app.post(
    '/api/demo',
    async (request): Promise<JobStarted> => ({
      job: jobs.start({ name: 'demo', by: { ...actOf(request), via: 'demo' } }, 'the demo garden'),
    }),
  );
  app.get('/api/jobs/:id', { config: { role: 'guest' } }, async (request) =>
    jobs.state((request.params as { id: string }).id),
  );
  app.delete('/api/jobs/:id', { config: { role: 'guest' } }, async (request) => {
    jobs.stop((request.params as { id: string }).id);
    return {};
  });
}

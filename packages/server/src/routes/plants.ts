import { readGenetPage, readProfiles } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { cautionsFor } from '../cautions.ts';
import type { GenetPage, PlantList } from '../contract/plants.ts';
import { wholeNumber } from '../given.ts';
import type { Serving } from '../serving.ts';

const wanted = z.object({
  search: z.string().max(200).optional(),
  origin: z.string().optional(),
  place: z.string().optional(),
  decision: z.string().optional(),
  alive: z.enum(['yes', 'no']).optional(),
  sort: z
    .enum(['code', 'name', 'taxon', 'origin', 'raisedIn', 'alive', 'notes', 'lastNotedOn', 'decision'])
    .default('code'),
  descending: z
    .enum(['true', 'false'])
    .default('false')
    .transform((text) => text === 'true'),
  offset: wholeNumber(0, 10_000_000).default(0),
  limit: wholeNumber(1, 1000).default(200),
});

export function plantRoutes(app: FastifyInstance, { programme, plants }: Serving): void {
  app.get('/api/plants', { config: { role: 'guest' } }, async (request): Promise<PlantList> => {
    const given = Object.fromEntries(
      Object.entries(request.query as object).filter(([, value]) => value !== ''),
    );
    return plants.list(wanted.parse(given));
  });
  app.get('/api/genets/:id', { config: { role: 'guest' } }, async (request): Promise<GenetPage> => {
    const page = await readGenetPage(
      programme.read,
      (request.params as { id: string }).id,
      await plants.all(),
    );
    const profiles = readProfiles(programme).flatMap(({ profile }) => profile ?? []);
    const { profile: _profile, protection: _protection, ...shown } = page;
    return { ...shown, cautions: cautionsFor(page, profiles) };
  });
}

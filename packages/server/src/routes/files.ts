import { createHash } from 'node:crypto';
import {
  keepPhoto,
  type ProfileFile,
  readPhoto,
  readProfiles,
  readTraits,
  takeProfileTraits,
  writeProfile,
} from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { PhotoHandedOver } from '../contract/phone.ts';
import type { PhotoKept, ProfileShown, TraitsTaken } from '../contract/programme.ts';
import { actOf } from '../given.ts';
import { RefusedError } from '../refusals.ts';
import type { Serving } from '../serving.ts';

const photoLimit = 40 * 1024 * 1024;

/** Files beside the store: photos under their hashes, profiles of genera. */
export function fileRoutes(app: FastifyInstance, { programme }: Serving): void {
  const shown = (
    { name, text, profile, problems }: ProfileFile,
    traits: ReadonlySet<string>,
  ): ProfileShown => ({
    name,
    title: profile?.name ?? name,
    genus: profile?.genus ?? null,
    text,
    problems,
    traits: profile?.traits.length ?? 0,
    missingTraits: (profile?.traits ?? []).filter(({ code }) => !traits.has(code)).map((trait) => trait.name),
  });
  const traitCodes = async () => new Set((await readTraits(programme.read)).map(({ code }) => code));
  const nameOf = (params: unknown): string => (params as { name: string }).name;

  app.get('/api/profiles', { config: { role: 'recorder' } }, async (): Promise<ProfileShown[]> => {
    const traits = await traitCodes();
    return readProfiles(programme).map((file) => shown(file, traits));
  });
  app.put('/api/profiles/:name', async (request): Promise<ProfileShown> => {
    const { text } = z.object({ text: z.string().max(1_000_000) }).parse(request.body);
    return shown(writeProfile(programme, nameOf(request.params), text), await traitCodes());
  });
  app.post(
    '/api/profiles/:name/traits',
    async (request): Promise<TraitsTaken> => ({
      made: await takeProfileTraits(programme, actOf(request), nameOf(request.params)),
    }),
  );

  void app.register(async (inner) => {
    inner.removeAllContentTypeParsers();
    inner.addContentTypeParser('*', { parseAs: 'buffer', bodyLimit: photoLimit }, (_request, body, done) =>
      done(null, body),
    );
    inner.post(
      '/api/photos',
      { bodyLimit: photoLimit, config: { role: 'recorder' } },
      async (request): Promise<PhotoKept> => keepPhoto(programme, request.body as Buffer),
    );
    inner.put(
      '/api/photos/:hash',
      { bodyLimit: photoLimit, config: { role: 'recorder' } },
      async (request): Promise<PhotoHandedOver> => {
        const { hash } = request.params as { hash: string };
        const bytes = request.body as Buffer | undefined;
        if (!bytes || createHash('sha256').update(bytes).digest('hex') !== hash) {
          throw new RefusedError(422, {
            problem: 'the picture came incomplete: its bytes are not those of its hash',
            remedy: 'send it again',
          });
        }
        return { hash: (await keepPhoto(programme, bytes)).hash };
      },
    );
  });
  app.get('/api/photos/:hash', { config: { role: 'guest' } }, async (request, reply) => {
    const { bytes, mediaType } = await readPhoto(programme, (request.params as { hash: string }).hash);
    return reply.type(mediaType).header('cache-control', 'private, max-age=31536000, immutable').send(bytes);
  });
}

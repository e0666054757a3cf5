import { readBedPlan, readBedPlants, readNoteGrid, readTraits, storeNotes } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { NotesStored } from '../contract/notes.ts';
import { actOf, wholeNumber } from '../given.ts';
import type { Serving } from '../serving.ts';

const lab = z.object({ l: z.number(), a: z.number(), b: z.number() });
const notesToStore = z.object({
  notes: z
    .array(
      z.object({
        id: z.uuid('a note brings its own UUID'),
        plant: z.string(),
        trait: z.string(),
        on: z.string(),
        state: z.string().optional(),
        value: z.union([z.number(), z.string(), lab, z.null()]).optional(),
        replaces: z.uuid().optional(),
        remark: z.string().max(4000).optional(),
      }),
    )
    .max(5000, 'at most 5,000 notes at a time'),
});
const year = wholeNumber(1600, 2399);

export function noteRoutes(app: FastifyInstance, { programme }: Serving): void {
  app.get('/api/traits', { config: { role: 'guest' } }, async () => readTraits(programme.read));
  app.get('/api/note-grid', { config: { role: 'recorder' } }, async (request) => {
    const wanted = z
      .object({ place: z.string().optional(), traits: z.string().default(''), year })
      .parse(request.query);
    return readNoteGrid(programme.read, {
      ...(wanted.place ? { place: wanted.place } : {}),
      traits: wanted.traits.split(',').filter(Boolean),
      year: wanted.year,
    });
  });
  app.post('/api/notes', { config: { role: 'recorder' } }, async (request): Promise<NotesStored> => {
    const { notes } = notesToStore.parse(request.body);
    const by = { ...actOf(request), mayCorrectOthers: request.visitor!.role === 'owner' };
    return { results: await storeNotes(programme, by, notes as never) };
  });
  app.get('/api/beds', { config: { role: 'guest' } }, async () => readBedPlan(programme.read));
  app.get('/api/beds/:code', { config: { role: 'guest' } }, async (request) => {
    const { trait, year: inYear } = z
      .object({ trait: z.string().optional(), year: year.optional() })
      .parse(request.query);
    return readBedPlants(
      programme.read,
      (request.params as { code: string }).code,
      trait || undefined,
      inYear,
    );
  });
}

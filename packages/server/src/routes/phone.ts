import {
  ensureLabelTrait,
  type FactToTake,
  latestAct,
  readHoldings,
  readSettings,
  takeFacts,
  todayIn,
} from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { FactsTaken, Holdings } from '../contract/phone.ts';
import { actOf, wholeNumber } from '../given.ts';
import { prolongStay } from '../guards/sign-in.ts';
import type { Serving } from '../serving.ts';
import { factGiven, recordersFact } from './facts-given.ts';
import { answerPacked } from './packed.ts';

const factsToTake = z.object({
  saidAt: z.iso.datetime({
    offset: true,
    message: 'saidAt is a moment in ISO 8601, such as 2031-05-20T06:40:00Z',
  }),
  facts: z
    .array(z.looseObject({ id: z.string('a fact brings its own id').max(60) }))
    .max(500, 'at most 500 facts at a time'),
});

/** What a phone holds for its walks, and what it hands over. */
export function phoneRoutes(app: FastifyInstance, { programme }: Serving): void {
  app.get('/api/phone/holdings', { config: { role: 'recorder' } }, async (request, reply) => {
    const { since } = z
      .object({ since: wholeNumber(0, 999_999_999).optional().catch(undefined) })
      .parse(request.query);
    prolongStay(request, reply);
    // Who walks without having been let in, on the office computer itself, notes labels too.
    await ensureLabelTrait(programme, actOf(request));
    const { name, timeZone, units } = (await readSettings(programme.read))!;
    const today = todayIn(timeZone, new Date());
    const { person, code, name: called, role } = request.visitor!;
    const holdings: Holdings = {
      ...(await readHoldings(programme.read, { since: since ?? null, today })),
      settings: { name, timeZone, units },
      person: { id: person, code, name: called, role },
      today,
    };
    return answerPacked(request, reply, holdings);
  });
  app.post('/api/phone/facts', { config: { role: 'recorder' } }, async (request): Promise<FactsTaken> => {
    const { saidAt, facts } = factsToTake.parse(request.body);
    const { role, person } = request.visitor!;
    const problems = new Map<string, string>();
    const sound: FactToTake[] = [];
    for (const given of facts) {
      const read = factGiven(given);
      const fact = typeof read !== 'string' && role === 'recorder' ? recordersFact(read, person) : read;
      if (typeof fact === 'string') problems.set(given.id, fact);
      else sound.push(fact);
    }
    const by = { ...actOf(request), via: 'phone' as const, saidAt, mayCorrectOthers: role === 'owner' };
    const taken = await takeFacts(programme, by, sound);
    for (const { id, problem } of taken) if (problem) problems.set(id, problem);
    return {
      results: facts.map(({ id }) => ({ id, problem: problems.get(id) ?? null })),
      upTo: await latestAct(programme.read),
    };
  });
}

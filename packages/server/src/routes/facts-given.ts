import type { FactToTake } from '@keelrow/records';
import { z } from 'zod';

const lab = z.object({ l: z.number(), a: z.number(), b: z.number() });
const row = z.record(
  z.string().max(60),
  z.union([z.string().max(4000), z.number(), z.boolean(), lab, z.null()]),
);
const fact = z.discriminatedUnion('kind', [
  z.object({
    kind: z.enum(['notes', 'photos', 'decisions', 'identities', 'moves']),
    id: z.string(),
    row,
    replaces: z.string().max(60).optional(),
  }),
  z.object({
    kind: z.literal('withdrawal'),
    id: z.string(),
    of: z.object({ kind: z.literal('notes'), id: z.string().max(60) }),
    reason: z.string().max(2000),
  }),
]) as unknown as z.ZodType<FactToTake>;

/** A fact as it was sent, or what is wrong with its form: one that cannot be read keeps no other from being stored. */
export function factGiven(given: unknown): FactToTake | string {
  const read = fact.safeParse(given);
  if (read.success) return read.data;
  const { path, message } = read.error.issues[0]!;
  return path.length > 0 ? `${path.join(' › ')}: ${message}` : message;
}

/**
 * What a recorder may hand over: notes, pictures and decisions, decisions as proposals whatever the phone says. Else why
 * not. Who saw a thing is whom the phone names, as a phone may change hands while notes wait on it, and else the recorder;
 * who handed it over stands in the act. person: id of the recorder.
 */
export function recordersFact(given: FactToTake, person: string | null): FactToTake | string {
  switch (given.kind) {
    case 'withdrawal':
      return given;
    case 'notes':
    case 'photos':
      return { ...given, row: { ...given.row, by: given.row.by ?? person } };
    case 'decisions':
      return { ...given, row: { ...given.row, by: given.row.by ?? person, proposed: true } };
    case 'identities':
      return 'only the owner says that a plant is another than its label says; note its label as wrong, with what it may be in the remark';
    case 'moves':
      return 'only the owner moves plants; tell the owner, or note it as a remark on the plant';
  }
}

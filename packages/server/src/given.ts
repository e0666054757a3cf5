import { isKindName, type KindName } from '@keelrow/breeding/facts';
import type { ActBy } from '@keelrow/records';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { RefusedError } from './refusals.ts';

/** The kind that a route's path names. */
export function kindGiven(request: FastifyRequest): KindName {
  const { kind } = request.params as { kind: string };
  if (!isKindName(kind)) throw new RefusedError(404, { problem: `there is no kind of record “${kind}”` });
  return kind;
}

/** A whole number in a query; text like 12abc is refused, not turned into a number. */
export const wholeNumber = (least: number, most: number) =>
  z
    .string()
    .regex(/^\d{1,9}$/, 'a whole number is wanted')
    .transform(Number)
    .pipe(z.number().min(least).max(most));

/** Who does what a request asks for. */
export function actOf(request: FastifyRequest, reason?: string): ActBy {
  return {
    person: request.visitor?.person ?? null,
    device: request.visitor?.device ?? null,
    via: request.visitor?.device ? 'phone' : 'browser',
    ...(reason ? { reason } : {}),
  };
}

export const anyRow = z.record(z.string(), z.unknown()) as unknown as z.ZodType<Record<string, never>>;

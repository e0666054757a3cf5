import { RecordsError, TableError } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { Refusal } from './contract/programme.ts';

/** What a request was refused for, with the HTTP status that says so to programs. */
export class RefusedError extends Error {
  readonly status: number;
  readonly refusal: Refusal['error'];

  constructor(status: number, refusal: Refusal['error']) {
    super(refusal.problem);
    this.status = status;
    this.refusal = refusal;
  }
}

const statusOf = { input: 422, conflict: 409, absent: 404, store: 503 } as const;

/** Any error as a status and words; what was not foreseen is told as such, without its inner workings. */
export function asRefusal(error: unknown): { status: number; refusal: Refusal['error'] } {
  if (error instanceof RefusedError) return { status: error.status, refusal: error.refusal };
  if (error instanceof RecordsError) {
    const { field, file, row, column } = error.where;
    const where = {
      ...(field ? { field } : {}),
      ...(file ? { file } : {}),
      ...(row ? { row } : {}),
      ...(column ? { column } : {}),
    };
    return {
      status: statusOf[error.because],
      refusal: {
        problem: error.message,
        ...(error.remedy ? { remedy: error.remedy } : {}),
        ...(Object.keys(where).length > 0 ? { where } : {}),
      },
    };
  }
  if (error instanceof TableError) {
    return {
      status: 422,
      refusal: {
        problem: error.problem,
        remedy: error.remedy,
        ...(error.row ? { where: { row: error.row } } : {}),
      },
    };
  }
  if (error instanceof z.ZodError) {
    const issue = error.issues[0]!;
    return { status: 400, refusal: { problem: issue.message, where: { field: issue.path.join('.') } } };
  }
  const { statusCode, problem, remedy, message } = (error ?? {}) as {
    statusCode?: number;
    problem?: string;
    remedy?: string;
    message?: string;
  };
  if (problem) return { status: 422, refusal: { problem, ...(remedy ? { remedy } : {}) } };
  if (statusCode && statusCode < 500)
    return { status: statusCode, refusal: { problem: message ?? 'the request was refused' } };
  return {
    status: 500,
    refusal: {
      problem: 'something went wrong that was not foreseen; nothing was stored',
      remedy: 'try again; if it stays, look at what the server printed',
    },
  };
}

export function answerRefusals(app: FastifyInstance): void {
  app.setErrorHandler((error, request, reply) => {
    const { status, refusal } = asRefusal(error);
    if (status >= 500) request.log.error(error);
    void reply.status(status).send({ error: refusal } satisfies Refusal);
  });
}

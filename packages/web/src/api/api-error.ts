import type { Refusal } from '@keelrow/server/contract';

/** An answer that was no success, in the words that are shown. */
export class ApiError extends Error {
  readonly status: number;
  readonly remedy: string | undefined;
  readonly where: NonNullable<Refusal['error']['where']> | undefined;

  constructor(status: number, refusal: Refusal['error']) {
    super(refusal.problem);
    this.status = status;
    this.remedy = refusal.remedy;
    this.where = refusal.where;
  }
}

export const outOfReach = (): ApiError =>
  new ApiError(0, {
    problem: 'The computer that keeps the records does not answer.',
    remedy: 'See that it is on and that Keelrow runs there; nothing you typed is lost.',
  });

/** Any thrown thing as words for the person. */
export function wordsOf(error: unknown): { problem: string; remedy: string | undefined } {
  if (error instanceof ApiError) return { problem: error.message, remedy: error.remedy };
  if (error instanceof Error) return { problem: error.message, remedy: undefined };
  return { problem: 'Something went wrong that gave no reason.', remedy: undefined };
}

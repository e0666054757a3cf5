import type { FieldProblem } from '@keelrow/breeding/facts';

/** Where in the user's input something is wrong, as far as known. */
export interface Where {
  readonly file?: string;
  readonly row?: number;
  readonly column?: string;
  readonly field?: string;
}

/**
 * What could not be done with the records, in words for the person.
 * because 'input': what was given is wrong; 'store': the store could not be read or written; 'conflict': it clashes
 * with what is stored; 'absent': no such record.
 */
export class RecordsError extends Error {
  readonly because: 'input' | 'store' | 'conflict' | 'absent';
  readonly remedy: string | undefined;
  readonly where: Where;

  constructor(because: RecordsError['because'], problem: string, remedy?: string, where: Where = {}) {
    super(problem);
    this.name = 'RecordsError';
    this.because = because;
    this.remedy = remedy;
    this.where = where;
  }
}

/** The first of several field problems as an error; the rest are counted in it. */
export function fieldError(one: string, problems: readonly FieldProblem[]): RecordsError {
  const [first, ...rest] = problems;
  const more =
    rest.length > 0 ? ` (and ${rest.length} more: ${rest.map(({ field }) => field).join(', ')})` : '';
  return new RecordsError('input', `${one}: ${first!.problem}${more}`, first!.remedy, {
    field: first!.field,
  });
}

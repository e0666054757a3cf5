import { isKindName, kindOf } from '@keelrow/breeding/facts';
import { ModelError } from '@keelrow/quant';
import { RecordsError, TableError } from '@keelrow/records';
import { RefusedError } from '@keelrow/server';

/** What was given on the command line is wrong: exit status 2. */
export class InputError extends Error {
  readonly problem: string;
  readonly remedy: string | undefined;
  constructor(problem: string, remedy?: string) {
    super(problem);
    this.problem = problem;
    this.remedy = remedy;
  }
}

interface Told {
  readonly problem: string;
  readonly remedy?: string | undefined;
  readonly where?: object | undefined;
}

/** Says on standard error why something could not be done; returns the exit status (1 could not, 2 wrong input). */
export function tellFailure(error: unknown, json: boolean): 1 | 2 {
  const [status, told] = inWords(error);
  if (json) console.error(JSON.stringify({ error: told }));
  else {
    console.error(told.problem);
    if (told.remedy) console.error(`→ ${told.remedy}`);
  }
  return status;
}

function inWords(error: unknown): [1 | 2, Told] {
  if (error instanceof InputError) return [2, { problem: error.problem, remedy: error.remedy }];
  if (error instanceof RecordsError) {
    const status = error.because === 'input' || error.because === 'conflict' ? 2 : 1;
    return [status, { problem: error.message, remedy: error.remedy, where: error.where }];
  }
  if (error instanceof TableError)
    return [
      2,
      { problem: error.problem, remedy: error.remedy, where: error.row ? { row: error.row } : undefined },
    ];
  if (error instanceof ModelError) {
    const place = [
      error.row === null ? '' : `row ${error.row}`,
      error.column === null ? '' : `column ${error.column}`,
    ]
      .filter(Boolean)
      .join(', ');
    return [
      2,
      {
        problem: place ? `${place}: ${error.problem}` : error.problem,
        remedy: error.remedy,
        where: { row: error.row, column: error.column },
      },
    ];
  }
  if (error instanceof RefusedError) return [error.status === 400 ? 2 : 1, error.refusal];
  if (error instanceof Error && 'code' in error && error.code === 'ENOENT') {
    return [
      2,
      {
        problem: `there is no file ${'path' in error ? String(error.path) : ''}`,
        remedy: 'check its name and folder',
      },
    ];
  }
  return [
    1,
    {
      problem: `not foreseen: ${error instanceof Error ? error.message : String(error)}`,
      remedy: 'nothing was stored; please report this with what you did',
    },
  ];
}

/** Records of each kind in words: `1 trait, 120 notes`. */
export const countsInWords = (counts: Readonly<Record<string, number>>): string =>
  Object.entries(counts)
    .map(([kind, count]) => `${count} ${count === 1 && isKindName(kind) ? kindOf(kind).one : kind}`)
    .join(', ');

/** Prints a table for people: numbers to the right, texts to the left. */
export function printTable(
  headers: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
): void {
  const texts = rows.map((row) => row.map((cell) => (cell === null ? '' : String(cell))));
  const numeric = headers.map(
    (_, index) =>
      rows.length > 0 &&
      rows.every(
        (row) =>
          row[index] === null ||
          typeof row[index] === 'number' ||
          /^[-−+]?[\d,.]+( [^\s]+)?$/.test(String(row[index])),
      ),
  );
  const widths = headers.map((header, index) =>
    Math.max(header.length, ...texts.map((row) => row[index]!.length)),
  );
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, index) => (numeric[index] ? cell.padStart(widths[index]!) : cell.padEnd(widths[index]!)))
      .join('  ')
      .trimEnd();
  console.log(line(headers));
  console.log(widths.map((width) => '─'.repeat(width)).join('  '));
  for (const row of texts) console.log(line(row));
}

/** A number with so many significant digits, without exponents for sizes met in gardens. */
export const digits = (number: number, count = 4): string => {
  const rounded = Number(number.toPrecision(count));
  return Math.abs(rounded) >= 1e-4 && Math.abs(rounded) < 1e9
    ? rounded.toLocaleString('en', { maximumFractionDigits: 10, useGrouping: false })
    : number.toPrecision(count);
};

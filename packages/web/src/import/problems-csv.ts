import type { ImportProblem } from '@keelrow/server/contract';

/** Text that a spreadsheet would take for a formula is made harmless by an apostrophe before it. */
const cell = (text: string): string => {
  const harmless = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
};

/** The list of problems as a CSV file (RFC 4180). */
export function problemsCsv(problems: readonly ImportProblem[]): string {
  const lines = problems.map(({ row, column, problem, remedy }) => [
    row === null ? '' : String(row),
    column ?? '',
    problem,
    remedy ?? '',
  ]);
  return [['row', 'column', 'problem', 'remedy'], ...lines]
    .map((line) => `${line.map(cell).join(',')}\r\n`)
    .join('');
}

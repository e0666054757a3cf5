import type { Design } from './design.ts';
import type { FixedColumn } from './fixed-columns.ts';

const MOST_NAMES = 12;

/** What the person should know about a fit that was made, in full sentences. */
export function designWarnings(design: Design): string[] {
  const warnings: string[] = [];
  if (design.aliased.length > 0) {
    warnings.push(
      `Left out, because earlier columns or missing combinations determine them: ${list(design.aliased.map(nameOf))}.`,
    );
  }
  if (design.readAsMissing.length > 0) {
    warnings.push(
      `NA was read as a missing cell in ${list(design.readAsMissing.map((column) => `"${column}"`))}.`,
    );
  }
  return warnings;
}

export function boundWarning(term: string): string {
  return `The variance of "${term}" lies at its lower bound: it is taken as 0, and so are its effects.`;
}

export function unconvergedWarning(iterations: number): string {
  return `The search for the variances did not settle in ${iterations} iterations; do not rely on these estimates.`;
}

export const SINGULAR_WARNING =
  'The variances can hardly be told apart from these rows, so no standard errors are given for them.';

function nameOf(column: FixedColumn): string {
  return column.level === null ? column.term : `${column.term} ${column.level}`;
}

function list(names: readonly string[]): string {
  const shown = names.slice(0, MOST_NAMES).join(', ');
  return names.length > MOST_NAMES ? `${shown} and ${names.length - MOST_NAMES} more` : shown;
}

/**
 * Codes that people see and the patterns from which new ones are made, such as `{year}-{serial:3}` -> 2027-014.
 * Placeholders: {year} four digits, {yy} two digits, {serial} the next free number, {serial:3} the same padded to
 * three digits, {of} the code of the record it belongs to (a seedling's accession or cross, a plant's genet).
 * Codes that were there before are kept as they are, whatever their pattern.
 */

export type CodePatterns = Readonly<Record<string, string>>;

export const usualPatterns: CodePatterns = {
  accessions: '{year}-{serial:3}',
  genets: '{of}-{serial}',
  plants: '{of}/{serial}',
  crosses: 'X{yy}-{serial:2}',
  'seed-lots': 'S{yy}-{serial:2}',
  sowings: 'W{yy}-{serial:2}',
  batches: 'C{yy}-{serial:2}',
  'pollen-lots': 'P{yy}-{serial:2}',
  trials: 'TR{yy}-{serial}',
  localities: 'L-{serial:2}',
};

const placeholder = /\{(year|yy|of|serial)(?::([1-6]))?\}/g;

/** What is wrong with a pattern, in words; null if nothing is. */
export function patternProblem(pattern: string): string | null {
  const rest = pattern.replace(placeholder, '');
  if (/[{}]/.test(rest))
    return `“${pattern}” holds a placeholder that is not known; use {year}, {yy}, {of}, {serial} or {serial:3}`;
  if (!/\{serial/.test(pattern)) return `“${pattern}” has no {serial}, so it would give the same code twice`;
  return null;
}

/** The part of a code that stands before its serial number, and the padding: what to search taken codes by. */
function filled(pattern: string, year: number, of: string): { before: string; after: string; width: number } {
  const parts = /^(.*?)\{serial(?::([1-6]))?\}(.*)$/.exec(pattern)!;
  const fill = (text: string): string =>
    text
      .replaceAll('{year}', String(year))
      .replaceAll('{yy}', String(year % 100).padStart(2, '0'))
      .replaceAll('{of}', of);
  return { before: fill(parts[1]!), after: fill(parts[3]!), width: Number(parts[2] ?? 1) };
}

/**
 * The next code of a pattern. taken: codes of the kind that exist, withdrawn ones included, since no code is used
 * again. of: the code of the record it belongs to, where the pattern asks for it.
 */
export function nextCode(pattern: string, taken: Iterable<string>, year: number, of = ''): string {
  const { before, after, width } = filled(pattern, year, of);
  let highest = 0;
  for (const code of taken) {
    if (!code.startsWith(before) || !code.endsWith(after)) continue;
    const serial = code.slice(before.length, code.length - after.length);
    if (/^\d+$/.test(serial)) highest = Math.max(highest, Number(serial));
  }
  return before + String(highest + 1).padStart(width, '0') + after;
}

/** What is wrong with a code itself; null if nothing is. */
export function codeProblem(code: string): string | null {
  if (code.trim() !== code || code === '') return 'a code may not begin or end with a blank';
  if (code.length > 200) return 'a code has at most 200 characters';
  if (/\p{Cc}/u.test(code)) return 'a code may not hold line breaks or other control characters';
  return null;
}

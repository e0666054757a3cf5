import { problem, quoted, type Reading } from './reading.ts';

// English, German and French words and the marks that people make in lists; common practice, no source.
const yes = new Set([
  'yes',
  'y',
  'true',
  't',
  '1',
  'x',
  '✓',
  '✔',
  '☑',
  'ja',
  'j',
  'wahr',
  'oui',
  'o',
  'vrai',
]);
const no = new Set(['no', 'n', 'false', 'f', '0', '✗', '✘', '☐', 'nein', 'falsch', 'non', 'faux']);

/** Reads yes or no in English, German or French, and the usual marks. */
export function readYesNo(text: string): Reading<boolean> {
  const plain = text.trim().toLowerCase();
  if (plain === '') return problem('the cell is empty');
  if (yes.has(plain)) return { ok: true, value: true };
  if (no.has(plain)) return { ok: true, value: false };
  return problem(`${quoted(text)} is neither yes nor no`);
}

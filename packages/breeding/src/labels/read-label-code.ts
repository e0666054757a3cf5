import { checkCharacter } from './check-character.ts';

export interface LabelReading {
  readonly code: string;
  /** Whether a check character was given and fits. Codes of old tags have none and are read as they are. */
  readonly check: 'right' | 'wrong' | 'none';
}

/**
 * What a text typed from a label, or scanned, may mean; best first, none for an empty text. The reader takes the first
 * reading whose code he knows, asks where he knows two of them, and says so where its check is wrong.
 *
 * `2031-004-3/1 K`, with a gap: the code with its check character; if that does not fit, first the whole as an old code.
 * `2031-004-3/1K`, without one: first the whole as a code (a code's own last character can by chance be the check
 * character of what stands before it, in one of 36), then the code with its check character.
 */
export function readLabelCode(typed: string): LabelReading[] {
  const text = typed.normalize('NFC').replace(/\s+/g, ' ').trim();
  if (text === '') return [];
  const whole: LabelReading = { code: text, check: 'none' };
  const apart = /^(.*?)(\s*[=·•|]\s*|\s)?([0-9a-z])$/i.exec(text);
  const code = apart?.[1]?.trimEnd();
  if (!apart || !code) return [whole];
  const expected = checkCharacter(code);
  if (expected === null) return [whole];
  const right = expected === apart[3]!.toUpperCase();
  const checked: LabelReading = { code, check: right ? 'right' : 'wrong' };
  return apart[2] !== undefined && right ? [checked, whole] : [whole, checked];
}

/** Reading of what stands behind the question mark of an address: anything may stand there. */

/** The parser of addresses takes digits for numbers; a code may consist of digits. */
export function text(value: unknown): string | undefined {
  if (typeof value === 'number') return String(value);
  return typeof value === 'string' && value !== '' ? value : undefined;
}

export function whole(value: unknown): number | undefined {
  const number = typeof value === 'string' && value !== '' ? Number(value) : value;
  return typeof number === 'number' && Number.isInteger(number) ? number : undefined;
}

export function oneOf<Word extends string>(value: unknown, words: readonly Word[]): Word | undefined {
  return words.find((word) => word === value);
}

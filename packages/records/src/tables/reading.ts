/** What a cell says, or why it cannot be read, in words for the person. */
export type Reading<T> = { readonly ok: true; readonly value: T } | Problem;

export interface Problem {
  readonly ok: false;
  readonly problem: string;
}

export function problem(words: string): Problem {
  return { ok: false, problem: words };
}

/** A cell's text in quotation marks, shortened where it is long. */
export function quoted(text: string): string {
  const plain = text.trim().replace(/\s+/g, ' ');
  return `“${plain.length > 40 ? `${plain.slice(0, 39)}…` : plain}”`;
}

const missing = new Set(['', 'na', 'n/a', 'n.a.', '#n/a', 'nan', 'null', 'none', '-', '–', '—', '.', '?']);

/** Whether a cell of a column of numbers or dates says that there is no value (common practice, no source). */
export function isMissingMark(text: string): boolean {
  return missing.has(text.trim().toLowerCase());
}

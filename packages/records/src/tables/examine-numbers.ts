import { type DecimalMark, decimalText, numberShape, possibleMarks } from './number-shape.ts';

export type ExaminedNumbers =
  /** Every number of the column that shows its decimal mark shows this one. */
  | { readonly decimal: DecimalMark }
  /** Whole numbers only, or no numbers at all: either mark gives the same. */
  | { readonly decimal: 'either' }
  /** `1,234` again and again: the person must say. `example` is the cell with what it would be under each mark. */
  | {
      readonly decimal: 'ask';
      readonly example: { readonly text: string; readonly point: number; readonly comma: number };
    }
  /** Some cells fit one mark only and some the other. The examples are one of each. */
  | { readonly decimal: 'mixed'; readonly point: string; readonly comma: string };

/** Looks through a whole column for its decimal mark. Cells that hold no number are passed over: `readNumber` tells of them. */
export function examineNumbers(texts: Iterable<string>): ExaminedNumbers {
  let point: string | undefined;
  let comma: string | undefined;
  let doubtful: { text: string; point: number; comma: number } | undefined;
  for (const text of texts) {
    const digits = numberShape(text)?.digits;
    if (digits === undefined) continue;
    const marks = possibleMarks(digits);
    if (marks.length === 1) {
      if (marks[0] === '.') point ??= text;
      else comma ??= text;
    } else if (marks.length === 2 && /[.,]/.test(digits)) {
      doubtful ??= { text, point: Number(decimalText(digits, '.')), comma: Number(decimalText(digits, ',')) };
    }
    if (point !== undefined && comma !== undefined) return { decimal: 'mixed', point, comma };
  }
  if (point !== undefined) return { decimal: '.' };
  if (comma !== undefined) return { decimal: ',' };
  return doubtful ? { decimal: 'ask', example: doubtful } : { decimal: 'either' };
}

import { unitNamed } from '@keelrow/breeding/facts';
import { type DecimalMark, decimalText, numberShape, possibleMarks } from './number-shape.ts';
import { type Problem, problem, quoted } from './reading.ts';

export type NumberReading = { readonly ok: true; readonly value: number; readonly unit?: string } | Problem;

/**
 * Reads a number as people write it: `12`, `-3.5`, `−3,5`, `1 234,5`, `1'234.5`, `12 1/2`, `1½`, `12 cm`, `85%`.
 * @param decimal the decimal mark of the column (see `examineNumbers`); without it, `1,234` and `1.234` are refused as doubtful
 * @returns the number as written, with the symbol of the unit behind it if there is one; nothing is converted
 */
export function readNumber(
  text: string,
  { decimal }: { decimal?: DecimalMark | undefined } = {},
): NumberReading {
  if (text.trim() === '') return problem('the cell is empty');
  const shape = numberShape(text);
  if (!shape) return problem(`${quoted(text)} is not a number${hint(text)}`);
  const unit = shape.rest === '' ? undefined : (unitNamed(shape.rest) ?? undefined);
  if (shape.rest !== '' && unit === undefined) {
    const reason = hint(text) || `: ${quoted(shape.rest)} behind it is no unit known here`;
    return problem(`${quoted(text)} is not a number${reason}`);
  }
  const marks = possibleMarks(shape.digits);
  if (marks.length === 0)
    return problem(`${quoted(text)} is not a number: its points and commas do not fit together`);
  const readings = marks.map((mark) => Number(`${decimalText(shape.digits, mark)}${shape.exponent}`));
  if (decimal === undefined && readings.length === 2 && readings[0] !== readings[1]) {
    return problem(
      `${quoted(text)} may be ${readings[0]} or ${readings[1]}: say whether the column has decimal points or commas`,
    );
  }
  const at = decimal === undefined ? 0 : marks.indexOf(decimal);
  const size = readings[at];
  if (size === undefined) {
    return problem(
      `${quoted(text)} does not fit the column, which has decimal ${decimal === ',' ? 'commas' : 'points'}`,
    );
  }
  if (!Number.isFinite(size)) return problem(`${quoted(text)} is too large a number`);
  const value = (shape.negative ? -1 : 1) * (size + shape.fraction);
  return unit === undefined ? { ok: true, value } : { ok: true, value, unit };
}

function hint(text: string): string {
  const plain = text.trim();
  if (/^[<>≤≥~≈±]|^(ca|about|approx|etwa)\b/i.test(plain))
    return '; write the number alone and the rest as a remark';
  if (/^\d[\d.,]*\s*(-|–|to|bis)\s*\d[\d.,]*/.test(plain)) return ' but a range; write one number';
  return '';
}

import { type AnyValue, type Field, fieldAsText, readLab, readParents } from '@keelrow/breeding/facts';
import { type Measure, measureOf, type Units } from '../parts/measure.ts';

const measureOfField = (field: Field, units: Units): Measure =>
  measureOf('unit' in field ? (field.unit ?? null) : null, units);

/** The unit beside a field's box, as the programme speaks. */
export const unitBeside = (field: Field, units: Units): string | null => measureOfField(field, units).unit;

/** A stored value as it stands in the box of a form. */
export function fieldToType(field: Field, value: AnyValue | undefined, units: Units): string {
  if (field.type === 'number' && typeof value === 'number')
    return String(measureOfField(field, units).toShown(value));
  return fieldAsText(field, value);
}

/** What was typed into a form's box as a value to store; a problem in words where it cannot be read. */
export function fieldTyped(
  field: Field,
  typed: string,
  units: Units,
): { readonly value: AnyValue } | { readonly problem: string } {
  const text = typed.trim();
  if (text === '') return { value: null };
  switch (field.type) {
    case 'number':
    case 'integer': {
      const number = readNumber(text);
      if (number === null) return { problem: `“${text}” is not a number` };
      return { value: field.type === 'integer' ? number : measureOfField(field, units).toStored(number) };
    }
    case 'yes-no':
      return { value: text === 'yes' };
    case 'list':
      return {
        value: text
          .split('|')
          .map((word) => word.trim())
          .filter((word) => word !== ''),
      };
    case 'colour': {
      const lab = readLab(text);
      return lab ? { value: lab } : { problem: `“${text}” is not a colour; write L a b, such as 45 5 -22` };
    }
    case 'parents': {
      const parents = readParents(text, field.side);
      return 'problem' in parents ? { problem: parents.problem } : { value: parents };
    }
    case 'value':
      return { value: readNumber(text) ?? readLab(text) ?? text };
    default:
      return { value: text };
  }
}

/** A number with a point or a comma before its decimals; null if it is none. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace('−', '-').replace(',', '.');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

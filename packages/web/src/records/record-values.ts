import {
  type AnyRow,
  type AnyValue,
  type Field,
  type FieldProblem,
  fieldsOf,
  type KindName,
  rowProblems,
} from '@keelrow/breeding/facts';
import type { Units } from '../parts/measure.ts';
import { fieldToType, fieldTyped } from './read-field.ts';

/** What stands in the boxes of a form, by field. */
export type Typed = Readonly<Record<string, string>>;

export const toType = (kind: KindName, row: AnyRow, units: Units): Typed =>
  Object.fromEntries(fieldsOf(kind).map(([name, field]) => [name, fieldToType(field, row[name], units)]));

/** Reads a form: the values of the boxes that were touched, and all that is wrong with the record as a whole. */
export function readForm(
  kind: KindName,
  typed: Typed,
  before: Typed,
  row: AnyRow,
  today: string,
  units: Units,
): { readonly changed: AnyRow; readonly problems: readonly FieldProblem[] } {
  const changed: Record<string, AnyValue> = {};
  const problems: FieldProblem[] = [];
  for (const [name, field] of fieldsOf(kind)) {
    if ((typed[name] ?? '') === (before[name] ?? '')) continue;
    const read = fieldTyped(field, typed[name] ?? '', units);
    if ('problem' in read) problems.push({ field: name, problem: read.problem });
    else changed[name] = read.value;
  }
  const known = new Set(fieldsOf(kind).map(([name]) => name));
  const whole = Object.fromEntries(
    Object.entries({ ...row, ...changed }).filter(([name]) => known.has(name)),
  );
  const already = new Set(problems.map(({ field }) => field));
  problems.push(...rowProblems(kind, whole, today).filter(({ field }) => !already.has(field)));
  return { changed, problems };
}

/** Abbreviations that are not written as words. */
const writtenOtherwise: Readonly<Record<string, string>> = { bbch: 'BBCH', ph: 'pH' };

/** `seed_parent` as `Seed parent`. */
export const fieldName = (name: string): string => {
  const words = name.replace(/_(c|m|px)$/, '').replaceAll('_', ' ');
  return writtenOtherwise[words] ?? words.charAt(0).toUpperCase() + words.slice(1);
};

/** What a field means, with words to be typed in quotation marks. */
export const meaningShown = ({ meaning }: Field): string => meaning.replace(/`([^`]*)`/g, '“$1”');

import type { Lab } from '@keelrow/breeding/facts';

/** The stored columns of a note's value. */
export interface ValueColumns {
  readonly value_number: number | null;
  readonly value_date: string | null;
  readonly value_text: string | null;
  readonly value_l: number | null;
  readonly value_a: number | null;
  readonly value_b: number | null;
}

export const valueColumns = [
  'notes.value_number',
  'notes.value_date',
  'notes.value_text',
  'notes.value_l',
  'notes.value_a',
  'notes.value_b',
] as const;

/** What a note holds; null where it has no value. */
export function heldValue(row: ValueColumns): number | string | Lab | null {
  if (row.value_l !== null) return { l: row.value_l, a: row.value_a ?? 0, b: row.value_b ?? 0 };
  return row.value_number ?? row.value_date ?? row.value_text;
}

/** A value in words for a screen, with its unit. */
export function shownValue(value: number | string | Lab | null, unit: string | null): string {
  if (value === null) return '';
  if (typeof value === 'object')
    return `L ${Math.round(value.l)} a ${Math.round(value.a)} b ${Math.round(value.b)}`;
  return typeof value === 'number' && unit ? `${value} ${unit}` : String(value);
}

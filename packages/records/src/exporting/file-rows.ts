import {
  type AnyRow,
  convert,
  type Field,
  fieldAsText,
  fieldsOf,
  type KindName,
  shownUnit,
  type TraitRule,
} from '@keelrow/breeding/facts';
import type { WriteColumn, WriteValue } from '../tables/index.ts';

export type Units = 'metric' | 'us';

interface FileColumn {
  readonly header: string;
  readonly value: (row: AnyRow) => WriteValue;
}

const quantity = (value: unknown, from: string | null, to: string | null): WriteValue =>
  typeof value === 'number'
    ? from && to && from !== to
      ? convert(value, from, to)
      : value
    : value === null || value === undefined
      ? null
      : String(value);

function columnOf(name: string, field: Field, units: Units): FileColumn {
  if (field.type === 'number' || field.type === 'integer') {
    const own = field.unit ?? null;
    const shown = own && field.type === 'number' ? shownUnit(own, units) : own;
    return {
      header: shown === own ? name : `${name} [${shown}]`,
      value: (row) => quantity(row[name], own, shown),
    };
  }
  return { header: name, value: (row) => fieldAsText(field, row[name]) || null };
}

/** Notes: the value in the unit spoken, and a column that names the unit. */
function noteColumns(name: string, traits: ReadonlyMap<string, TraitRule>, units: Units): FileColumn[] {
  const unitOf = (row: AnyRow): string | null => traits.get(String(row.trait))?.unit ?? null;
  const shownOf = (row: AnyRow): string | null => {
    const own = unitOf(row);
    return own && typeof row[name] === 'number' ? shownUnit(own, units) : own;
  };
  const text: Field = { type: 'value', meaning: '', example: '' };
  return [
    {
      header: name,
      value: (row) =>
        typeof row[name] === 'number'
          ? quantity(row[name], unitOf(row), shownOf(row))
          : fieldAsText(text, row[name]) || null,
    },
    { header: 'unit', value: (row) => (typeof row[name] === 'number' ? shownOf(row) : null) },
  ];
}

/** Columns of a kind's file, with the id last: whoever changes a code keeps the record. */
export function fileColumns(
  kind: KindName,
  traits: ReadonlyMap<string, TraitRule>,
  units: Units,
): readonly FileColumn[] {
  return [
    ...fieldsOf(kind).flatMap(([name, field]) =>
      field.type === 'value' ? noteColumns(name, traits, units) : [columnOf(name, field, units)],
    ),
    { header: 'id', value: (row) => row.id as string },
  ];
}

export const asWriteColumns = (columns: readonly FileColumn[]): WriteColumn[] =>
  columns.map(({ header }) => ({ header, width: Math.min(40, Math.max(10, header.length + 2)) }));

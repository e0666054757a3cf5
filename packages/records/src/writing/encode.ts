import {
  type AnyRow,
  type AnyValue,
  type Field,
  type FieldProblem,
  fieldsOf,
  isDate,
  type KindName,
  kindOf,
  type Lab,
  type PossibleParent,
} from '@keelrow/breeding/facts';
import type { ParentRow } from '../schema/columns.ts';
import type { References } from './references.ts';

/** A record in the form in which it is stored. */
export interface Encoded {
  readonly columns: Record<string, string | number | null>;
  readonly parents: Omit<ParentRow, 'owner'>[];
  readonly problems: FieldProblem[];
}

/** References that the rows make, by kind: to be prepared before they are encoded. */
export function referencesIn(kind: KindName, rows: Iterable<AnyRow>): Map<KindName, Set<string>> {
  const wanted = new Map<KindName, Set<string>>();
  const want = (to: KindName, name: string) => {
    const set = wanted.get(to) ?? new Set();
    set.add(name);
    wanted.set(to, set);
  };
  const fields = fieldsOf(kind);
  for (const row of rows) {
    for (const [name, field] of fields) {
      const value = row[name];
      if (value === null || value === undefined || value === '') continue;
      if (field.type === 'reference') want(field.to as KindName, value as string);
      if (field.type === 'parents') {
        for (const { genet } of value as PossibleParent[]) if (genet !== 'self') want('genets', genet);
      }
    }
  }
  return wanted;
}

export async function prepareReferences(
  references: References,
  kind: KindName,
  rows: readonly AnyRow[],
): Promise<void> {
  for (const [to, names] of referencesIn(kind, rows)) await references.prepare(to, names);
}

/** The fields given, as stored columns; references that were prepared are turned into ids. */
export function encode(
  kind: KindName,
  row: AnyRow,
  references: References,
  only?: readonly string[],
): Encoded {
  const columns: Encoded['columns'] = {};
  const parents: Encoded['parents'] = [];
  const problems: FieldProblem[] = [];
  for (const [name, field] of fieldsOf(kind)) {
    if (only && !only.includes(name)) continue;
    const value = row[name] ?? null;
    if (field.type === 'parents') {
      for (const [listed, parent] of ((value ?? []) as readonly PossibleParent[]).entries()) {
        const id = parent.genet === 'self' ? null : references.idOf('genets', parent.genet);
        if (parent.genet !== 'self' && id === null)
          problems.push(unknownReference(name, 'genets', parent.genet));
        parents.push({ side: field.side, listed, parent: id, chance: parent.chance });
      }
      continue;
    }
    if (field.type === 'reference' && value !== null && value !== '') {
      const id = references.idOf(field.to as KindName, value as string);
      if (id === null) problems.push(unknownReference(name, field.to as KindName, value as string));
      columns[name] = id;
      continue;
    }
    Object.assign(columns, encodeField(name, field, value));
  }
  return { columns, parents, problems };
}

function unknownReference(field: string, to: KindName, name: string): FieldProblem {
  const one = kindOf(to).one;
  return {
    field,
    problem: `there is no ${one} “${name}”`,
    remedy: `store that ${one} first, or mend the spelling`,
  };
}

function encodeField(name: string, field: Field, value: AnyValue): Record<string, string | number | null> {
  const empty = value === null || value === '' || (Array.isArray(value) && value.length === 0);
  switch (field.type) {
    case 'yes-no':
      return { [name]: empty ? null : value ? 1 : 0 };
    case 'list': {
      const words = empty ? [] : (value as readonly string[]).map((word) => word.trim());
      return { [name]: words.filter((word) => word !== '').join(' | ') || null };
    }
    case 'text':
      // Blanks at the ends say nothing, and files do not keep them.
      return { [name]: empty ? null : (value as string).trim() || null };
    case 'colour':
      return labColumns(name, empty ? null : (value as Lab));
    case 'value': {
      const isLab = typeof value === 'object' && value !== null;
      const text = typeof value === 'string' ? value.trim() : '';
      const date = isDate(text) ? text : null;
      return {
        [`${name}_number`]: typeof value === 'number' ? value : null,
        [`${name}_date`]: date,
        [`${name}_text`]: date === null && text !== '' ? text : null,
        ...labColumns(name, isLab ? (value as Lab) : null),
      };
    }
    default:
      return { [name]: empty ? null : (value as string | number) };
  }
}

const labColumns = (name: string, lab: Lab | null): Record<string, number | null> => ({
  [`${name}_l`]: lab?.l ?? null,
  [`${name}_a`]: lab?.a ?? null,
  [`${name}_b`]: lab?.b ?? null,
});

import {
  type AnyRow,
  type Field,
  fieldAsText,
  fieldsOf,
  type KindName,
  kindOf,
  labelOf,
} from '@keelrow/breeding/facts';
import type { ReactNode } from 'react';
import { useUnits } from '../parts/measure.ts';
import { haveOwnPages, ownPage } from './own-page.tsx';
import { fieldToType, unitBeside } from './read-field.ts';
import { fieldName } from './record-values.ts';

interface TableProps {
  readonly kind: KindName;
  readonly rows: readonly (AnyRow & { readonly id: string })[];
  readonly onShow: (row: AnyRow & { readonly id: string }) => void;
}

/** Records of any kind, with the columns that any of these rows fills. */
export function RecordTable({ kind, rows, onShow }: TableProps): ReactNode {
  const units = useUnits();
  const key = kindOf(kind).key;
  const hasPages = haveOwnPages.includes(kind);
  const filled = fieldsOf(kind).filter(
    ([name, field]) => name !== key && rows.some((row) => fieldAsText(field, row[name]) !== ''),
  );
  const shown = (field: Field, row: AnyRow, name: string): string => fieldToType(field, row[name], units);
  return (
    <section className="record-table" aria-label={kindOf(kind).many}>
      <table>
        <thead>
          <tr>
            <th scope="col">{key ? fieldName(key) : 'Record'}</th>
            {hasPages && <th scope="col">Its page</th>}
            {filled.map(([name, field]) => (
              <th key={name} scope="col" title={field.meaning}>
                {fieldName(name)}
                {unitBeside(field, units) && <span className="soft"> {unitBeside(field, units)}</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">
                <button type="button" className="record-open" onClick={() => onShow(row)}>
                  {labelOf(kind, row)}
                </button>
              </th>
              {hasPages && <td>{ownPage(kind, row)}</td>}
              {filled.map(([name, field]) => (
                <td
                  key={name}
                  className={field.type === 'number' || field.type === 'integer' ? 'number' : ''}
                >
                  {shown(field, row, name)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

import type { PlantListRow, PlantSort } from '@keelrow/server/contract';
import { Link, useNavigate } from '@tanstack/react-router';
import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import type { PlantsWanted } from '../api/queries.ts';
import { Icon } from '../parts/icon.tsx';
import { usePhone } from '../parts/use-media.ts';
import { moved } from './moved.ts';
import { type PlantColumn, parentage, plantColumns } from './plant-columns.tsx';
import { usePlantRows } from './plant-rows.ts';
import './plant-table.css';

interface TableProps {
  readonly wanted: PlantsWanted;
  readonly total: number;
  readonly onSort: (sort: PlantSort) => void;
}

const widths = `minmax(8.5rem, 0.9fr) ${plantColumns.map(({ width }) => width).join(' ')}`;

/** A list of any length: only the rows in sight are drawn, and only their pages are asked for. */
export function PlantTable({ wanted, total, onSort }: TableProps): ReactNode {
  const phone = usePhone();
  const scroller = useRef<HTMLDivElement>(null);
  const [active, setActive] = useState(0);
  const wantsFocus = useRef(false);
  const navigate = useNavigate();
  const rows = useVirtualizer({
    count: total,
    getScrollElement: () => scroller.current,
    estimateSize: () => (phone ? 62 : 34),
    overscan: 12,
  });
  const shown = rows.getVirtualItems();
  const row = usePlantRows(wanted, shown[0]?.index ?? 0, shown.at(-1)?.index ?? 0, total);

  useEffect(() => {
    if (!wantsFocus.current) return;
    wantsFocus.current = false;
    scroller.current?.querySelector<HTMLElement>(`[data-row="${active}"] a`)?.focus({ preventScroll: true });
  });

  const byKey = (event: KeyboardEvent): void => {
    const next = moved(
      event.key,
      active,
      total,
      Math.floor((scroller.current?.clientHeight ?? 400) / 34) - 1,
    );
    if (next === null) {
      const code = row(active)?.code;
      if (event.key === 'Enter' && code !== undefined && event.target === scroller.current) {
        void navigate({ to: '/plants/$genet', params: { genet: code } });
      }
      return;
    }
    event.preventDefault();
    wantsFocus.current = true;
    setActive(next);
    rows.scrollToIndex(next);
  };

  return (
    <section ref={scroller} className="plant-table" aria-label="Plants" tabIndex={-1} onKeyDown={byKey}>
      <table aria-rowcount={total + 1}>
        {!phone && <HeadRow wanted={wanted} onSort={onSort} />}
        <tbody style={{ height: rows.getTotalSize() }}>
          {shown.map((item) => (
            <tr
              key={item.key}
              aria-rowindex={item.index + 2}
              data-row={item.index}
              style={{
                transform: `translateY(${item.start}px)`,
                height: item.size,
                ...(phone ? {} : { gridTemplateColumns: widths }),
              }}
            >
              <Cells
                row={row(item.index)}
                phone={phone}
                reachable={item.index === active}
                onFocus={() => setActive(item.index)}
              />
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function HeadRow({ wanted, onSort }: Pick<TableProps, 'wanted' | 'onSort'>): ReactNode {
  const columns: readonly Pick<PlantColumn, 'name' | 'sort' | 'number'>[] = [
    { name: 'Code', sort: 'code' },
    ...plantColumns,
  ];
  return (
    <thead>
      <tr aria-rowindex={1} style={{ gridTemplateColumns: widths }}>
        {columns.map(({ name, sort, number }) => {
          const here = sort !== undefined && (wanted.sort ?? 'code') === sort;
          const direction = wanted.descending ? 'descending' : 'ascending';
          return (
            <th
              key={name}
              scope="col"
              aria-sort={here ? direction : 'none'}
              className={number ? 'number' : ''}
            >
              {sort ? (
                <button type="button" onClick={() => onSort(sort)}>
                  {name}
                  {here && <Icon name={wanted.descending ? 'down' : 'up'} size={14} />}
                </button>
              ) : (
                name
              )}
            </th>
          );
        })}
      </tr>
    </thead>
  );
}

function Cells({
  row,
  phone,
  reachable,
  onFocus,
}: {
  readonly row: PlantListRow | undefined;
  readonly phone: boolean;
  readonly reachable: boolean;
  readonly onFocus: () => void;
}): ReactNode {
  if (!row) {
    return (
      <td>
        <span className="plant-waiting">
          <span className="for-readers-only">on its way</span>
        </span>
      </td>
    );
  }
  const code = (
    <Link
      to="/plants/$genet"
      params={{ genet: row.code }}
      tabIndex={reachable ? 0 : -1}
      onFocus={onFocus}
      preload={false}
    >
      {row.code}
      {row.standard && <span className="standard-mark">standard</span>}
    </Link>
  );
  if (phone) {
    return (
      <td className="plant-card">
        <span className="plant-card-head">
          {code}
          <span className="plant-card-name">{row.name}</span>
        </span>
        <span className="soft small plant-card-line">
          {[parentage(row) || row.taxon, `${row.alive} alive`, row.places.join(', '), row.decision]
            .filter(Boolean)
            .join(' · ')}
        </span>
      </td>
    );
  }
  return (
    <>
      <td>{code}</td>
      {plantColumns.map(({ name, number, show }) => (
        <td key={name} className={number ? 'number' : ''}>
          {show(row)}
        </td>
      ))}
    </>
  );
}

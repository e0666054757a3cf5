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
    estimateSize: () => (phone ? 72 : 34),
    overscan: 12,
  });
  const shown = rows.getVirtualItems();
  const row = usePlantRows(wanted, shown[0]?.index ?? 0, shown.at(-1)?.index ?? 0, total);

  useEffect(() => rows.measure(), [phone, rows]);
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
    // The table scrolls in itself, so it can be reached by Tab and moved through by arrows.
    <div
      ref={scroller}
      className="plant-table"
      role="table"
      aria-label="Plants"
      aria-rowcount={total + 1}
      tabIndex={-1}
      onKeyDown={byKey}
    >
      {!phone && <HeadRow wanted={wanted} onSort={onSort} />}
      <div role="rowgroup" className="plant-rows" style={{ height: rows.getTotalSize() }}>
        {shown.map((item) => (
          <div
            key={item.key}
            role="row"
            aria-rowindex={item.index + 2}
            data-row={item.index}
            className={`plant-row ${item.index === active ? 'plant-row-active' : ''}`}
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
          </div>
        ))}
      </div>
    </div>
  );
}

function HeadRow({ wanted, onSort }: Pick<TableProps, 'wanted' | 'onSort'>): ReactNode {
  const columns: readonly Pick<PlantColumn, 'name' | 'sort' | 'number'>[] = [
    { name: 'Code', sort: 'code' },
    ...plantColumns,
  ];
  return (
    <div role="rowgroup" className="plant-head">
      <div role="row" aria-rowindex={1} className="plant-row-head" style={{ gridTemplateColumns: widths }}>
        {columns.map(({ name, sort, number }) => {
          const here = sort !== undefined && (wanted.sort ?? 'code') === sort;
          const direction = wanted.descending ? 'descending' : 'ascending';
          return (
            <div
              key={name}
              role="columnheader"
              aria-sort={here ? direction : 'none'}
              className={number ? 'number' : ''}
            >
              {sort ? (
                <button type="button" onClick={() => onSort(sort)}>
                  {name}
                  {here && <Icon name={wanted.descending ? 'down' : 'up'} size={14} />}
                </button>
              ) : (
                <span>{name}</span>
              )}
            </div>
          );
        })}
      </div>
    </div>
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
      <div role="cell" className="plant-waiting">
        <span className="for-readers-only">on its way</span>
      </div>
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
      <div role="cell" className="plant-card">
        <span className="plant-card-head">
          {code}
          <span className="plant-card-name">{row.name}</span>
        </span>
        <span className="soft small plant-card-line">
          {[parentage(row) || row.taxon, `${row.alive} alive`, row.places.join(', '), row.decision]
            .filter(Boolean)
            .join(' · ')}
        </span>
      </div>
    );
  }
  return (
    <>
      <div role="cell">{code}</div>
      {plantColumns.map(({ name, number, show }) => (
        <div role="cell" key={name} className={number ? 'number' : ''}>
          {show(row)}
        </div>
      ))}
    </>
  );
}

import type { NoteGrid } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import { defaultRangeExtractor, useVirtualizer } from '@tanstack/react-virtual';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { measureOf, useUnits } from '../parts/measure.ts';
import { useToday } from '../parts/use-today.ts';
import './note-grid.css';
import { NoteBox } from './note-box.tsx';
import { readBlock } from './paste.ts';
import { PastePreview } from './paste-preview.tsx';

interface Spot {
  readonly row: number;
  readonly column: number;
}

/** The bed as a ruled sheet: a row a plant in walking order, a column a trait, a box a note. */
export function NoteGridTable({ grid, on }: { readonly grid: NoteGrid; readonly on: string }): ReactNode {
  const units = useUnits();
  const today = useToday();
  const setting = { on, today, units };
  const scroller = useRef<HTMLElement>(null);
  const [active, setActive] = useState<Spot>({ row: 0, column: 0 });
  const [moving, setMoving] = useState<Spot | null>(null);
  const [pasted, setPasted] = useState<{ block: string[][]; from: Spot } | null>(null);

  const rows = useVirtualizer({
    count: grid.rows.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => 36,
    overscan: 10,
    scrollPaddingStart: 44,
    scrollPaddingEnd: 36,
    // The row in which one types stays drawn, however far one scrolls away.
    rangeExtractor: (range) =>
      [...new Set([...defaultRangeExtractor(range), active.row])].sort((a, b) => a - b),
  });

  const move = (from: Spot, down: number, right: number): void => {
    const to = {
      row: Math.min(grid.rows.length - 1, Math.max(0, from.row + down)),
      column: Math.min(grid.traits.length - 1, Math.max(0, from.column + right)),
    };
    rows.scrollToIndex(to.row, { align: 'auto' });
    setActive(to);
    setMoving(to);
  };
  useEffect(() => {
    if (!moving) return;
    const box = scroller.current?.querySelector<HTMLInputElement>(
      `[data-row="${moving.row}"] td[data-column="${moving.column}"] input`,
    );
    box?.focus({ preventScroll: true });
    setMoving(null);
  }, [moving]);

  const columns = `4rem minmax(9rem, 11rem) minmax(7rem, 12rem) ${grid.traits.map(({ sort }) => (sort === 'coloured' ? 'minmax(15rem, 18rem)' : 'minmax(8.5rem, 12rem)')).join(' ')}`;
  return (
    <>
      <section
        ref={scroller}
        className="note-grid"
        aria-label={`Notes of ${grid.place?.code ?? 'the garden'}, ${grid.year}`}
      >
        <table aria-rowcount={grid.rows.length + 1}>
          <thead>
            <tr style={{ gridTemplateColumns: columns }}>
              <th scope="col">Walk</th>
              <th scope="col">Plant</th>
              <th scope="col">Genet</th>
              {grid.traits.map((trait) => (
                <th scope="col" key={trait.code} title={trait.how ?? undefined}>
                  {trait.name} <span className="soft">{measureOf(trait.unit, units).unit}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody style={{ height: rows.getTotalSize() }}>
            {rows.getVirtualItems().map((item) => {
              const row = grid.rows[item.index]!;
              return (
                <tr
                  key={row.plant}
                  data-row={item.index}
                  aria-rowindex={item.index + 2}
                  className={item.index === active.row ? 'note-row-active' : ''}
                  style={{ transform: `translateY(${item.start}px)`, gridTemplateColumns: columns }}
                >
                  <td className="soft">{row.walk ?? ''}</td>
                  <th scope="row" title={row.plantCode}>
                    {row.plantCode}
                  </th>
                  <td>
                    <Link to="/plants/$genet" params={{ genet: row.genetCode }} tabIndex={-1} preload={false}>
                      {row.genetName ?? row.genetCode}
                    </Link>
                  </td>
                  {grid.traits.map((trait, column) => (
                    <td key={trait.code} data-column={column} className="note-cell">
                      <NoteBox
                        row={row}
                        trait={trait}
                        setting={setting}
                        onFocus={() => setActive({ row: item.index, column })}
                        onMove={(down, right) => move({ row: item.index, column }, down, right)}
                        onPaste={(text) =>
                          setPasted({ block: readBlock(text), from: { row: item.index, column } })
                        }
                      />
                    </td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
      {pasted && <PastePreview grid={grid} setting={setting} {...pasted} onClose={() => setPasted(null)} />}
    </>
  );
}

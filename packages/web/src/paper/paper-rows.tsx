import { checkCharacter } from '@keelrow/breeding/labels';
import type { NoteGrid } from '@keelrow/server/contract';
import { type ReactNode, useEffect, useRef } from 'react';
import { measureOf, useUnits } from '../parts/measure.ts';
import { PaperBox } from './paper-box.tsx';
import type { Walked } from './paper-note.ts';

interface PaperRowsProps {
  readonly grid: NoteGrid;
  readonly walked: Walked;
  /** Box to begin at. */
  readonly begin: { readonly row: number; readonly column: number };
  readonly onPlace: (row: number, column: number) => void;
}

/** The sheet on the screen, row by row as it was printed. */
export function PaperRows({ grid, walked, begin, onPlace }: PaperRowsProps): ReactNode {
  const units = useUnits();
  const boxes = useRef<(HTMLInputElement | null)[]>([]);
  const columns = grid.traits.length;
  const first = useRef(begin.row * columns + begin.column);
  const go = (at: number): void =>
    boxes.current[Math.max(0, Math.min(at, grid.rows.length * columns - 1))]?.focus();

  useEffect(() => {
    boxes.current[first.current]?.focus();
  }, []);

  return (
    <table className="paper-table">
      <thead>
        <tr>
          <th scope="col">
            <span className="for-readers-only">Row</span>
          </th>
          <th scope="col">Plant</th>
          {grid.traits.map((trait) => (
            <th key={trait.code} scope="col">
              {trait.name}
              {trait.unit && <span className="soft">, {measureOf(trait.unit, units).unit}</span>}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {grid.rows.map((row, down) => (
          <tr key={row.plant}>
            <td className="number soft">{down + 1}</td>
            <th scope="row">
              <span className="number">{row.plantCode}</span>{' '}
              <span className="paper-check" title="check character">
                {checkCharacter(row.plantCode)}
              </span>
              <span className="small soft paper-name">{row.genetName ?? ''}</span>
            </th>
            {grid.traits.map((trait, across) => (
              <td key={trait.code}>
                <PaperBox
                  grid={grid}
                  row={row}
                  trait={trait}
                  walked={walked}
                  input={(box) => {
                    boxes.current[down * columns + across] = box;
                  }}
                  onMove={(on, rows) => go((down + rows) * columns + across + on)}
                  onFocus={() => onPlace(down, across)}
                />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

import type { WinterChance } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { type Line, numberLine } from '../compare/scale.ts';
import '../estimates/marks.css';
import { perCent, rangeShown, tickInPerCent } from './winter-words.ts';

/** One row: a name before, a chance with its range drawn on the common line, and what it rests on. */
interface ChanceRow extends WinterChance {
  readonly key: string;
  readonly rank?: string;
  readonly name: ReactNode;
  readonly stood: number;
  readonly lost: number;
}

interface TableProps {
  readonly rows: readonly ChanceRow[];
  readonly line: Line;
  /** What a row is: `Origin`, `Genet`. */
  readonly of: string;
  readonly label: string;
}

/** A line for the chances of all rows, so that they can be held side by side. */
export const lineOf = (chances: readonly WinterChance[]): Line =>
  numberLine(
    chances.flatMap(({ low, high }) => [low, high]),
    5,
  );

/** Chances to come through a winter, one a row. */
export function ChanceTable({ rows, line, of, label }: TableProps): ReactNode {
  const ranked = rows.some(({ rank }) => rank !== undefined);
  const at = (value: number): string => `${(2 + line.at(value) * 96).toFixed(2)}%`;
  return (
    <table className={ranked ? 'chances chances-ranked' : 'chances'} aria-label={label}>
      <thead>
        <tr>
          {ranked && <th scope="col">Rank</th>}
          <th scope="col">{of}</th>
          <th scope="col" className="chances-picture">
            <span className="for-readers-only">Range that holds the truth with a chance of 80%</span>
            <svg width="100%" height="18" aria-hidden="true">
              {line.ticks
                .filter((tick) => tick <= 1)
                .map((tick) => (
                  <text key={tick} x={at(tick)} y="13">
                    {tickInPerCent(tick)}
                  </text>
                ))}
            </svg>
          </th>
          <th scope="col" className="number">
            Comes through
          </th>
          <th scope="col" className="number" title="Each plant counts once for each winter that it stood in">
            Stood
          </th>
          <th scope="col" className="number">
            Lost
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, rank, name, chance, low, high, stood, lost }) => (
          <tr key={key}>
            {ranked && <td className="soft chances-rank">{rank}</td>}
            <th scope="row">{name}</th>
            <td className="chances-picture">
              <svg width="100%" height="20" aria-hidden="true">
                {line.ticks
                  .filter((tick) => tick <= 1)
                  .map((tick) => (
                    <line key={tick} className="chances-tick" x1={at(tick)} x2={at(tick)} y1="0" y2="20" />
                  ))}
                <line className="range-bar" x1={at(low)} x2={at(high)} y1="10" y2="10" />
                <circle className="estimate-dot" cx={at(chance)} cy="10" r="4.5" />
              </svg>
            </td>
            <td className="number chances-value">
              {perCent(chance)} <span className="soft small">({rangeShown({ low, high })})</span>
            </td>
            <td className="number small soft chances-stood">
              {stood}
              <span className="chances-unit"> stood</span>
            </td>
            <td className="number small soft chances-lost">
              {lost}
              <span className="chances-unit"> lost</span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

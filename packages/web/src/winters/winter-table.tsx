import type { WintersReport } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { measureOf, useUnits } from '../parts/measure.ts';
import { plainNumber } from '../parts/words.ts';
import { perCent } from './winter-words.ts';

/** The winters as they were: how cold, how many plants stood, and how many of them were lost. */
export function WinterTable({ winters }: Pick<WintersReport, 'winters'>): ReactNode {
  const measure = measureOf('°C', useUnits());
  if (winters.length === 0) return <p className="soft">No plant stood through a winter yet.</p>;
  return (
    <table className="winter-table">
      <thead>
        <tr>
          <th scope="col">Ended in</th>
          <th scope="col" className="number">
            Lowest, {measure.unit}
          </th>
          <th scope="col" className="number">
            Stood
          </th>
          <th scope="col" className="number">
            Lost
          </th>
          <th scope="col" className="number">
            Came through
          </th>
          <th scope="col" className="number">
            In their first winter
          </th>
        </tr>
      </thead>
      <tbody>
        {winters.map(({ winter, minimum, stood, lost, first }) => (
          <tr key={winter}>
            <th scope="row">{winter}</th>
            <td className="number">
              {minimum === null ? (
                <span className="soft">not known</span>
              ) : (
                plainNumber(Number(measure.toShown(minimum).toFixed(1)))
              )}
            </td>
            <td className="number">{stood.toLocaleString('en-US')}</td>
            <td className="number">{lost.toLocaleString('en-US')}</td>
            <td className="number">{cameThrough(stood, lost)}</td>
            <td className="number">
              {first.stood === 0 ? (
                <span className="soft">none</span>
              ) : (
                `${cameThrough(first.stood, first.lost)} of ${first.stood.toLocaleString('en-US')}`
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const cameThrough = (stood: number, lost: number): string =>
  lost === 0 ? 'all' : lost === stood ? 'none' : perCent(1 - lost / stood);

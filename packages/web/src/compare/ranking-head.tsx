import type { ReactNode } from 'react';
import type { Worth } from './ranked.ts';
import type { Line } from './scale.ts';
import type { TraitWriting } from './trait-shown.ts';

interface HeadProps {
  readonly line: Line;
  readonly writing: TraitWriting;
  readonly trait: string;
  readonly worth: Worth;
  /** Among how many best the chance is shown; none where it is not shown. */
  readonly best: number | null | undefined;
}

/** Names of the columns, and the scale of the drawing. */
export function RankingHead({ line, writing, trait, worth, best }: HeadProps): ReactNode {
  const tick = worth === 'parent' ? signedTick : writing.tick;
  return (
    <thead>
      <tr>
        <th scope="col">Rank</th>
        <th scope="col">Genet</th>
        <th scope="col" className="ranking-axis">
          <span className="for-readers-only">Range that holds the truth with a chance of 80%</span>
          <svg width="100%" height="20" aria-hidden="true">
            {line.ticks.map((at) => (
              <text key={at} x={`${line.at(at) * 100}%`} y="14">
                {tick(at)}
              </text>
            ))}
          </svg>
        </th>
        <th scope="col" className="number">
          {worth === 'parent' ? 'Above the average' : trait}
          {(!writing.isDay || worth === 'parent') && writing.unit && (
            <span className="soft"> {writing.unit}</span>
          )}
        </th>
        <th scope="col" title="How much of what sets it apart is told by its notes and kin">
          Told
        </th>
        {best && (
          <th scope="col" className="number">
            Best {best}
          </th>
        )}
        <th scope="col" className="number">
          Notes
        </th>
        <th scope="col">
          <span className="for-readers-only">Hold against</span>
        </th>
      </tr>
    </thead>
  );
}

const signedTick = (at: number): string => (at > 0 ? `+${at}` : at < 0 ? `−${-at}` : 'average');

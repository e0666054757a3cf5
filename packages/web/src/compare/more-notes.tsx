import type { PairCompared } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { counted } from '../parts/words.ts';
import { eightyPercent } from './pair-words.ts';
import { numberLine } from './scale.ts';
import type { TraitWriting } from './trait-shown.ts';

const [left, width, rowHeight] = [84, 310, 24];

interface Reach {
  readonly name: string;
  readonly low: number;
  readonly high: number;
  readonly ahead: boolean;
}

/** The range of the difference now, and after further years of notes or with further plants, on one line. */
export function MoreNotes({
  pair,
  writing,
}: {
  readonly pair: PairCompared;
  readonly writing: TraitWriting;
}): ReactNode {
  const rows = reachesOf(pair);
  const line = numberLine(
    [0, ...rows.flatMap(({ low, high }) => [writing.span(low), writing.span(high)])],
    5,
  );
  const x = (value: number): number => left + line.at(value) * (width - left - 12);
  const height = rows.length * rowHeight + 22;
  return (
    <svg
      className="more-notes"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label="Range of the difference now, by further years of notes, and with further plants"
    >
      <path className="more-notes-zero" d={`M${x(0)} 0V${height - 18}`} />
      {rows.map(({ name, low, high, ahead }, index) => {
        const y = index * rowHeight + 13;
        return (
          <g key={name} className={ahead ? 'more-notes-ahead' : ''}>
            <text x={left - 10} y={y + 4} className="more-notes-name">
              {name}
            </text>
            <line x1={x(writing.span(low))} x2={x(writing.span(high))} y1={y} y2={y} />
            <circle cx={x(writing.span(pair.difference))} cy={y} r="4.5" />
          </g>
        );
      })}
      {line.ticks.map((tick) => (
        <text key={tick} x={x(tick)} y={height - 5} className="more-notes-tick">
          {tick === 0 ? 'same' : tick > 0 ? `+${tick}` : `−${-tick}`}
        </text>
      ))}
    </svg>
  );
}

function reachesOf({ difference, low, high, withMoreYears, withMorePlants }: PairCompared): Reach[] {
  const ahead = (name: string, se: number): Reach => ({
    name,
    low: difference - eightyPercent * se,
    high: difference + eightyPercent * se,
    ahead: true,
  });
  return [
    { name: 'now', low, high, ahead: false },
    ...withMoreYears.map(({ years, seInDoubt }) => ahead(`+${counted(years, 'year')}`, seInDoubt)),
    ...withMorePlants.map(({ plants, seInDoubt }) => ahead(`+${counted(plants, 'plant')}`, seInDoubt)),
  ];
}

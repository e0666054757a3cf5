import type { PairCompared } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { eightyPercent } from './pair-words.ts';
import { numberLine } from './scale.ts';
import type { TraitWriting } from './trait-shown.ts';

const [left, width, rowHeight] = [76, 300, 24];

/** The difference with its range now and after each further year of notes, on one line with no difference marked. */
export function MoreYears({
  pair,
  writing,
}: {
  readonly pair: PairCompared;
  readonly writing: TraitWriting;
}): ReactNode {
  const rows = [{ years: 0, se: pair.se }, ...pair.withMoreYears];
  const ends = rows.flatMap(({ se }) =>
    [-1, 1].map((sign) => writing.span(pair.difference + sign * eightyPercent * se)),
  );
  const line = numberLine([0, ...ends], 4);
  const x = (value: number): number => left + line.at(value) * (width - left - 8);
  const height = rows.length * rowHeight + 22;
  return (
    <svg
      className="more-years"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label="Range of the difference by further years of notes"
    >
      <path className="more-years-zero" d={`M${x(0)} 0V${height - 18}`} />
      {rows.map(({ years, se }, index) => {
        const y = index * rowHeight + 13;
        const reach = eightyPercent * se;
        return (
          <g key={years} className={years === 0 ? '' : 'more-years-ahead'}>
            <text x={left - 8} y={y + 4} className="more-years-name">
              {years === 0 ? 'now' : `+${years} ${years === 1 ? 'year' : 'years'}`}
            </text>
            <line
              x1={x(writing.span(pair.difference - reach))}
              x2={x(writing.span(pair.difference + reach))}
              y1={y}
              y2={y}
            />
            <circle cx={x(writing.span(pair.difference))} cy={y} r="4.5" />
          </g>
        );
      })}
      {line.ticks.map((tick) => (
        <text key={tick} x={x(tick)} y={height - 5} className="more-years-tick">
          {tick === 0 ? 'same' : tick > 0 ? `+${tick}` : `−${-tick}`}
        </text>
      ))}
    </svg>
  );
}

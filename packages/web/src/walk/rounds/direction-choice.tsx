import type { ReactNode } from 'react';
import type { Direction } from './round.ts';

const ways: readonly { way: Direction['way']; name: string; line: string }[] = [
  { way: 'numbered', name: 'By number', line: 'as the plants are numbered in the bed' },
  { way: 'serpentine', name: 'Serpentine', line: 'up one row and down the next' },
  { way: 'rows', name: 'Row by row', line: 'each row from the same end' },
];

type Start = Pick<Direction, 'end' | 'side'> & { readonly name: string };

const ends: readonly Start[] = [
  { end: 'first', side: 'first', name: 'from the first' },
  { end: 'last', side: 'first', name: 'from the last' },
];
/** As they lie in the drawing: row 1 at its foot, the start of the bed at its left. */
const corners: readonly Start[] = [
  { end: 'first', side: 'last', name: 'last row, start of the bed' },
  { end: 'last', side: 'last', name: 'last row, end of the bed' },
  { end: 'first', side: 'first', name: 'row 1, start of the bed' },
  { end: 'last', side: 'first', name: 'row 1, end of the bed' },
];

/** Which way the bed is walked, and from which of its ends or corners; each drawn. */
export function DirectionChoice({
  direction,
  onChoose,
  measured,
}: {
  readonly direction: Direction;
  readonly onChoose: (direction: Direction) => void;
  /** Every plant has its place in the bed on record. */
  readonly measured: boolean;
}): ReactNode {
  const starts = direction.way === 'numbered' ? ends : corners;
  return (
    <fieldset className="round-choices">
      <legend>Way</legend>
      <div>
        {ways.map(({ way, name, line }) => (
          <button
            key={way}
            type="button"
            aria-pressed={direction.way === way}
            disabled={way !== 'numbered' && !measured}
            onClick={() => onChoose({ way, end: 'first', side: 'first' })}
          >
            {name} <span className="soft">{line}</span>
          </button>
        ))}
      </div>
      {!measured && <p className="soft">Rows need every plant’s place in the bed on record.</p>}
      <div className="round-corners">
        {starts.map(({ end, side, name }) => (
          <button
            key={name}
            type="button"
            aria-pressed={direction.end === end && direction.side === side}
            onClick={() => onChoose({ ...direction, end, side })}
          >
            <WayDrawing direction={{ ...direction, end, side }} />
            {name}
          </button>
        ))}
      </div>
    </fieldset>
  );
}

/** Three rows of a bed with the way through them; a ring where it starts. */
function WayDrawing({ direction: { way, end, side } }: { readonly direction: Direction }): ReactNode {
  const [left, right] = [10, 86];
  const ys = side === 'first' ? [38, 24, 10] : [10, 24, 38];
  const rowsDrawn = (way === 'numbered' ? [24] : ys).map((y, index) => {
    const turned = way === 'serpentine' && index % 2 === 1;
    const [from, to] = (end === 'first') === turned ? [right, left] : [left, right];
    return { from, to, y };
  });
  const path = rowsDrawn
    .map(
      ({ from, to, y }, index) => `${index > 0 && way === 'serpentine' ? 'L' : 'M'}${from} ${y}L${to} ${y}`,
    )
    .join('');
  const lastRow = rowsDrawn.at(-1)!;
  const back = lastRow.to > lastRow.from ? -7 : 7;
  return (
    <svg viewBox="0 0 96 48" width="96" height="48" aria-hidden="true">
      <path d={path} />
      <path d={`M${lastRow.to + back} ${lastRow.y - 5}L${lastRow.to} ${lastRow.y}l${back} 5`} />
      <circle cx={rowsDrawn[0]!.from} cy={rowsDrawn[0]!.y} r="5" />
    </svg>
  );
}

import type { ReactNode } from 'react';
import type { EntryProps } from './entry-props.ts';
import { gates, tallied } from './tally.ts';

/** One touch anywhere for each spike, with the strokes drawn as on paper. */
export function TallyPad({
  typed,
  setTyped,
  keepText,
}: EntryProps & { readonly keepText: (typed: string) => void }): ReactNode {
  const text = /^\d+$/.test(typed) ? typed : '';
  const { full, strokes } = gates(text);
  return (
    <div className="walk-tally settling">
      <button type="button" className="walk-tap" onClick={() => setTyped(tallied(text, 1))}>
        <span className="walk-tap-words">Tap once for each</span>
        <svg className="walk-strokes" viewBox="0 0 300 72" aria-hidden="true">
          {Array.from({ length: Math.min(full, 11) + 1 }, (_, gate) => (
            <path
              // biome-ignore lint/suspicious/noArrayIndexKey: gates have no other name
              key={gate}
              d={gateDrawn(gate, gate < full ? 5 : full > 11 ? 0 : strokes)}
            />
          ))}
        </svg>
      </button>
      <button
        type="button"
        className="walk-key"
        disabled={text === '' || text === '0'}
        aria-label="−1, one less"
        onClick={() => setTyped(tallied(text, -1))}
      >
        −1
      </button>
      <button
        type="button"
        className="walk-key"
        aria-label="+10, ten more"
        onClick={() => setTyped(tallied(text, 10))}
      >
        +10
      </button>
      <button type="button" className="walk-keep" onClick={() => keepText(text || '0')}>
        Keep {text || '0'}
      </button>
    </div>
  );
}

/** Four strokes and the bar across them; six gates in a row. */
function gateDrawn(gate: number, strokes: number): string {
  const [x, y] = [6 + (gate % 6) * 49, 4 + Math.floor(gate / 6) * 36];
  const upright = Array.from(
    { length: Math.min(4, strokes) },
    (_, stroke) => `M${x + 4 + stroke * 9} ${y}v28`,
  ).join('');
  return strokes === 5 ? `${upright}M${x - 3} ${y + 24}l38 -20` : upright;
}

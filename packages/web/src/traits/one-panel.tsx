import { Link, useNavigate } from '@tanstack/react-router';
import { type KeyboardEvent, type ReactNode, useRef, useState } from 'react';
import { useWidth } from '../beds/use-width.ts';
import type { TraitWriting } from '../compare/trait-shown.ts';
import { counted } from '../parts/words.ts';
import { notedShown } from './noted-shown.ts';
import { drawPanel, nextSpot } from './panel-places.ts';
import { markLook, markPath, wordsOfStep } from './residual-marks.ts';
import type { BedPanels, Panel, Spot } from './residual-panels.ts';

interface PanelProps {
  readonly frame: BedPanels['frame'];
  readonly panel: Panel;
  readonly writing: TraitWriting;
  /** The sums were made in the trait's own unit, so that what was expected can be written. */
  readonly asNoted: boolean;
}

/** One bed in one year, large: each plant can be reached by arrow keys or finger, and leads to its page. */
export function OnePanel({ frame, panel, writing, asNoted }: PanelProps): ReactNode {
  const box = useRef<HTMLElement>(null);
  const width = useWidth(box, 800);
  const navigate = useNavigate();
  const wasChosen = useRef(false);
  const [chosen, setChosen] = useState<string | null>(null);
  const drawing = drawPanel(frame, panel, { width: Math.max(200, width), highest: 420, margin: 18 });
  const largest = Math.min(12, Math.max(5, 90 / Math.sqrt(Math.max(1, drawing.placed.length))));
  const shown = drawing.placed.find(({ spot }) => spot.key === chosen)?.spot;
  const reachable = shown?.key ?? drawing.placed[0]?.spot.key;

  const walk = (event: KeyboardEvent): void => {
    const to = reachable && nextSpot(drawing.placed, reachable, event.key);
    if (!to) return;
    event.preventDefault();
    box.current?.querySelector<SVGAElement>(`[data-spot="${CSS.escape(to)}"]`)?.focus();
  };
  return (
    <figure ref={box} className="one-panel">
      <section onKeyDown={walk} aria-label={`${panel.bed ?? 'Place not known'} in ${panel.year}, large`}>
        <svg width={drawing.width} height={drawing.height}>
          <title>{`${panel.bed ?? 'Plants outside any bed'} in ${panel.year}`}</title>
          {drawing.placed.map(({ spot, x, y }) => (
            <a
              key={spot.key}
              data-spot={spot.key}
              href={`/plants/${encodeURIComponent(spot.code)}`}
              tabIndex={spot.key === reachable ? 0 : -1}
              className={spot.key === chosen ? 'residual-spot residual-chosen' : 'residual-spot'}
              aria-label={`${spot.code}: ${wordsOfStep(spot.step, writing.isDay)}`}
              onPointerDown={() => {
                wasChosen.current = spot.key === chosen;
              }}
              onPointerEnter={(event) => event.pointerType === 'mouse' && setChosen(spot.key)}
              onFocus={() => setChosen(spot.key)}
              onClick={(event) => {
                event.preventDefault();
                setChosen(spot.key);
                // The first touch shows the plant, the second opens its page; Enter opens it at once.
                if (wasChosen.current || event.detail === 0)
                  void navigate({ to: '/plants/$genet', params: { genet: spot.code } });
              }}
            >
              <circle className="residual-target" cx={x} cy={y} r={Math.max(9, largest)} />
              <path className={markLook(spot.step)} d={markPath(x, y, spot.step, largest)} />
            </a>
          ))}
        </svg>
      </section>
      <figcaption>
        <p role="status" className="one-panel-words">
          {shown ? (
            <>
              <Link to="/plants/$genet" params={{ genet: shown.code }}>
                {shown.code}
              </Link>{' '}
              {noteWords(shown, writing, asNoted)}
            </>
          ) : (
            <span className="soft">Point at a mark, or walk with the arrow keys.</span>
          )}
        </p>
        <p className="small soft">
          {counted(drawing.placed.length, 'plant')}
          {drawing.byPlace ? ', north up' : ', from less than expected (left) to more (right)'}
          {drawing.unplaced > 0 && `; ${counted(drawing.unplaced, 'more')} without a place in the bed`}.
        </p>
      </figcaption>
    </figure>
  );
}

/** `noted 36 cm, expected about 31.2: clearly more than expected`. */
function noteWords({ notes, step }: Spot, writing: TraitWriting, asNoted: boolean): string {
  const noted = notes.map((note) => notedShown(note, writing)).join(', ');
  const words = wordsOfStep(step, writing.isDay);
  if (!asNoted || notes.length !== 1) return `noted ${noted}: ${words}`;
  return `noted ${noted}, where about ${writing.tick(rounded(notes[0]!.fitted, writing))} was to be expected: ${words}`;
}

const rounded = (value: number, { isDay, toShown }: TraitWriting): number =>
  isDay ? Math.round(value) : Number(toShown(value).toFixed(1));

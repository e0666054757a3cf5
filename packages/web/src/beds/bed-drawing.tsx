import type { BedPlants, BedShown } from '@keelrow/server/contract';
import { useNavigate } from '@tanstack/react-router';
import { type KeyboardEvent, type ReactNode, useRef } from 'react';
import { moved } from '../plants/moved.ts';
import { Compass } from './compass.tsx';
import { usualDistance } from './geometry.ts';
import { useWidth } from './use-width.ts';
import { colourOf, inkOn, type Step, type ValueSteps } from './value-steps.ts';

export type PlantShown = BedPlants['plants'][number];

interface DrawingProps {
  readonly bed: BedShown & { readonly lengthM: number; readonly widthM: number };
  readonly plants: readonly PlantShown[];
  readonly steps: ValueSteps | null;
  readonly chosen: string | null;
  readonly onChoose: (plant: string) => void;
}

/** One bed, its length from left to right, with a mark for each plant: filled by its value's step, hatched where gone. */
export function BedDrawing({ bed, plants, steps, chosen, onChoose }: DrawingProps): ReactNode {
  const frame = useRef<HTMLElement>(null);
  const width = useWidth(frame, 900);
  const navigate = useNavigate();
  const wasChosen = useRef(false);
  const spots = plants.map(({ eastM, northM }) => ({ east: eastM ?? 0, north: northM ?? 0 }));
  const apart = usualDistance(spots) ?? 1;
  const margin = 16;
  // Marks of neighbours should not touch, nor be too small for a finger; a long bed then scrolls sideways.
  const scale = Math.min(140, Math.max((width - 2 * margin) / bed.lengthM, 26 / apart));
  const radius = Math.min(15, Math.max(7, (apart * scale) / 2 - 1.5));
  const inOrder = [...plants].sort((a, b) => (a.walk ?? 0) - (b.walk ?? 0));
  const reachable = plants.some(({ id }) => id === chosen) ? chosen : inOrder[0]?.id;
  const x = (plant: PlantShown): number => margin + (plant.eastM ?? 0) * scale;
  const y = (plant: PlantShown): number => margin + (bed.widthM - (plant.northM ?? 0)) * scale;

  const walk = (event: KeyboardEvent): void => {
    const key = { ArrowRight: 'ArrowDown', ArrowLeft: 'ArrowUp' }[event.key] ?? event.key;
    const at = inOrder.findIndex(({ id }) => id === reachable);
    const to = moved(key, at, inOrder.length, 10);
    const plant = to === null ? undefined : inOrder[to];
    if (!plant) return;
    event.preventDefault();
    onChoose(plant.id);
    frame.current?.querySelector<SVGAElement>(`[data-plant="${CSS.escape(plant.id)}"]`)?.focus();
  };

  return (
    <figure ref={frame} className="bed-drawing">
      <section className="bed-scroller" aria-label={`Drawing of ${bed.code}`} onKeyDown={walk}>
        <svg width={bed.lengthM * scale + 2 * margin} height={bed.widthM * scale + 2 * margin}>
          <title>{`${bed.code}: ${bed.lengthM} m by ${bed.widthM} m`}</title>
          <defs>
            <pattern
              id="gone"
              width="5"
              height="5"
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(45)"
            >
              <path d="M0 0V5" />
            </pattern>
          </defs>
          <rect
            className="bed-ground"
            x={margin}
            y={margin}
            width={bed.lengthM * scale}
            height={bed.widthM * scale}
          />
          {plants.map((plant) => {
            const step = steps?.stepOf(plant.value) ?? null;
            return (
              <a
                key={plant.id}
                data-plant={plant.id}
                href={`/plants/${encodeURIComponent(plant.genetCode)}`}
                tabIndex={plant.id === reachable ? 0 : -1}
                className={`bed-plant ${plant.id === chosen ? 'bed-plant-chosen' : ''}`}
                aria-label={[
                  plant.code,
                  plant.shown ?? (steps ? 'not noted' : ''),
                  step ? `step ${step.number}` : '',
                  plant.alive ? '' : 'gone',
                ]
                  .filter(Boolean)
                  .join(', ')}
                onPointerDown={() => {
                  wasChosen.current = plant.id === chosen;
                }}
                onFocus={() => onChoose(plant.id)}
                onClick={(event) => {
                  event.preventDefault();
                  onChoose(plant.id);
                  // The first touch shows the plant, the second opens its page; Enter opens it at once.
                  if (wasChosen.current || event.detail === 0)
                    void navigate({ to: '/plants/$genet', params: { genet: plant.genetCode } });
                }}
              >
                <Mark plant={plant} x={x(plant)} y={y(plant)} radius={radius} step={step} />
              </a>
            );
          })}
        </svg>
      </section>
      <figcaption>
        <Compass scale={scale} turned={bed.turned} />
      </figcaption>
    </figure>
  );
}

function Mark({
  plant,
  x,
  y,
  radius,
  step,
}: {
  readonly plant: PlantShown;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly step: Step | null;
}): ReactNode {
  if (!plant.alive) {
    return (
      <>
        <circle className="bed-gone" cx={x} cy={y} r={radius} fill="url(#gone)" />
        <path className="bed-cross" d={`M${x - 4} ${y - 4}l8 8M${x + 4} ${y - 4}l-8 8`} />
      </>
    );
  }
  return (
    <>
      <circle cx={x} cy={y} r={radius} style={step === null ? {} : { fill: colourOf(step) }} />
      {step !== null && radius >= 8 && (
        <text x={x} y={y + 4} className={inkOn(step)}>
          {step.number}
        </text>
      )}
    </>
  );
}

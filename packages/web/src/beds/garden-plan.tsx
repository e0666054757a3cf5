import { useNavigate } from '@tanstack/react-router';
import { type ReactNode, useRef } from 'react';
import { counted } from '../parts/words.ts';
import { conditionsOf } from './bed-list.tsx';
import { Compass } from './compass.tsx';
import './garden-plan.css';
import { boundsOf, cornersOf, type MeasuredBed } from './geometry.ts';
import { useWidth } from './use-width.ts';

/** Room in pixels to the right of the last bed for a name that stands beside it. */
const nameBeside = 150;

/** The beds of a site from above, north upward; each leads to its own drawing. */
export function GardenPlan({ beds }: { readonly beds: readonly MeasuredBed[] }): ReactNode {
  const frame = useRef<HTMLElement>(null);
  const width = useWidth(frame, 900);
  const navigate = useNavigate();
  const bounds = boundsOf(beds.flatMap(cornersOf), 1.5);
  const [across, up] = [bounds.east - bounds.west, bounds.north - bounds.south];
  // A garden longer than wide should not run off the screen; a small one should not be blown up beyond sense.
  const scale = Math.max(5, Math.min((width - nameBeside) / across, 700 / up, 60));
  const point = ({ east, north }: { east: number; north: number }): string =>
    `${((east - bounds.west) * scale).toFixed(1)},${((bounds.north - north) * scale).toFixed(1)}`;
  return (
    <figure ref={frame} className="garden-plan">
      <div className="garden-plan-scroller">
        <svg width={across * scale + nameBeside} height={up * scale}>
          <title>Plan of the beds, north upward</title>
          <defs>
            <pattern
              id="soil"
              width="9"
              height="9"
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(20)"
            >
              <path d="M2 2v1.500M6.500 6v1.500" />
            </pattern>
          </defs>
          {beds.map((bed) => {
            const corners = cornersOf(bed);
            const middle = {
              east: (corners[0]!.east + corners[2]!.east) / 2,
              north: (corners[0]!.north + corners[2]!.north) / 2,
            };
            const [x, y] = point(middle).split(',').map(Number) as [number, number];
            const turned = upright(-bed.turned);
            const [long, thick] = [bed.lengthM * scale, bed.widthM * scale];
            // A name that does not fit into its bed stands beside it.
            const fits = thick > 15 && long > bed.code.length * 7;
            return (
              <a
                key={bed.id}
                className="garden-bed"
                href={`/beds/${encodeURIComponent(bed.code)}`}
                aria-label={[
                  bed.plants > 0 ? `${bed.code} ${counted(bed.plants, 'plant')}` : bed.code,
                  bed.name,
                  conditionsOf(bed),
                ]
                  .filter(Boolean)
                  .join(', ')}
                onClick={(event) => {
                  if (event.metaKey || event.ctrlKey || event.shiftKey) return;
                  event.preventDefault();
                  void navigate({ to: '/beds/$bed', params: { bed: bed.code } });
                }}
              >
                <polygon points={corners.map(point).join(' ')} />
                <polygon points={corners.map(point).join(' ')} className="garden-soil" />
                <g transform={`translate(${x} ${y}) rotate(${turned})`}>
                  <text x={fits ? 0 : long / 2 + 6} y="4" className={fits ? '' : 'garden-bed-beside'}>
                    {bed.code}{' '}
                    {bed.plants > 0 && (
                      <tspan className="garden-bed-plants">{counted(bed.plants, 'plant')}</tspan>
                    )}
                  </text>
                </g>
              </a>
            );
          })}
        </svg>
      </div>
      <figcaption>
        <Compass scale={scale} />
      </figcaption>
    </figure>
  );
}

/** An angle at which text is not read upside down. */
const upright = (angle: number): number => {
  const turned = ((angle % 360) + 360) % 360;
  return turned > 90 && turned <= 270 ? turned - 180 : turned;
};

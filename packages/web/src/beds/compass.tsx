import type { ReactNode } from 'react';
import { roundLength } from './geometry.ts';
import './compass.css';

/** North arrow and scale bar; scale: pixels to a metre. turned: how far the drawing's right hand lies from east. */
export function Compass({
  scale,
  turned = 0,
}: {
  readonly scale: number;
  readonly turned?: number;
}): ReactNode {
  const length = roundLength(140 / scale);
  const width = length * scale;
  const words = length >= 1 ? `${length} m` : `${Math.round(length * 100)} cm`;
  return (
    <div className="compass">
      <svg width="28" height="34" viewBox="0 0 28 34" role="img" aria-label="North arrow">
        <g transform={`rotate(${turned} 14 20)`}>
          <path className="compass-half" d="M14 8l6 20-6-4z" />
          <path d="M14 8L8 28l6-4 6 4z" />
        </g>
        <text x="14" y="7">
          N
        </text>
      </svg>
      <svg width={width + 2} height="22" role="img" aria-label={`Scale: ${words}`}>
        <path d={`M1 12v6H${width + 1}v-6`} />
        <text x={width / 2} y="10">
          {words}
        </text>
      </svg>
    </div>
  );
}

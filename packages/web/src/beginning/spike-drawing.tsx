import type { ReactNode } from 'react';

/** A spike of pea flowers in bud and bloom, drawn from a rule: whorls of florets that open from below. */
export function SpikeDrawing(): ReactNode {
  const whorls = Array.from({ length: 14 }, (_, index) => index);
  return (
    <svg className="spike" viewBox="0 0 220 460" aria-hidden="true">
      <path className="spike-stem" d="M110 456C108 320 113 190 110 42" />
      <Leaf x={110} y={420} turned={-14} />
      <Leaf x={110} y={392} turned={18} mirrored />
      {whorls.map((index) => {
        const y = 330 - index * 29 + index * index * 0.55;
        const open = Math.max(0, 1 - index / 10);
        const size = Math.max(0.2, 0.3 + open * 0.62 - Math.max(0, index - 9) * 0.03);
        const reach = 7 + open * 36;
        return (
          <g key={index}>
            <Floret x={110 - reach} y={y} size={size} turned={-16} open={open} />
            <Floret x={110 + reach} y={y} size={size} turned={16} open={open} />
            <Floret x={110} y={y + 5} size={size * 0.94} turned={0} open={open} />
          </g>
        );
      })}
    </svg>
  );
}

function Floret({
  x,
  y,
  size,
  turned,
  open,
}: {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly turned: number;
  readonly open: number;
}): ReactNode {
  return (
    <g transform={`translate(${x} ${y}) rotate(${turned}) scale(${size})`}>
      <path
        className="spike-banner"
        d="M0-20C-19-20-26-8-25 2c1 8 9 12 16 9 5-2 8-5 9-8 1 3 4 6 9 8 7 3 15-1 16-9C26-8 19-20 0-20z"
      />
      {open > 0.25 && <path className="spike-vein" d="M0-15V2M-9-12C-13-7-15-3-15 2M9-12C13-7 15-3 15 2" />}
      {open > 0.12 && (
        <path className="spike-keel" d="M-12 6c0 13 5 20 12 20s12-7 12-20c-4 4-8 5-12 5S-8 10-12 6z" />
      )}
    </g>
  );
}

function Leaf({
  x,
  y,
  turned,
  mirrored = false,
}: {
  readonly x: number;
  readonly y: number;
  readonly turned: number;
  readonly mirrored?: boolean;
}): ReactNode {
  return (
    <g transform={`translate(${x} ${y}) scale(${mirrored ? -1 : 1} 1) rotate(${turned})`}>
      <path className="spike-stem" d="M0 0C-18-6-30-16-44-22" />
      {[-70, -42, -14, 14, 42, 70].map((angle) => (
        <path
          key={angle}
          className="spike-leaflet"
          d="M0 0C8-8 10-26 0-42-10-26-8-8 0 0z"
          transform={`translate(-44 -22) rotate(${angle - 60})`}
        />
      ))}
    </g>
  );
}

import type { WinterCurve, WintersReport } from '@keelrow/server/contract';
import { type ReactNode, useRef } from 'react';
import { useWidth } from '../beds/use-width.ts';
import { type Line, numberLine } from '../compare/scale.ts';
import { type Measure, measureOf, useUnits } from '../parts/measure.ts';
import { usePhone } from '../parts/use-media.ts';
import { minus } from '../parts/words.ts';
import './cold-curve.css';
import { CurveLegend, curveLook } from './curve-legend.tsx';
import { notedWinters } from './noted-winters.ts';
import { labelsBeside } from './point-labels.ts';
import { winterMark } from './winter-mark.ts';
import { tickInPerCent } from './winter-words.ts';

const margin = { left: 46, right: 14, top: 10, bottom: 26 };

interface CurveProps {
  readonly report: WintersReport;
  /** An origin whose curve is drawn too. */
  readonly origin: WinterCurve | null;
}

/** The chance to come through a winter against its lowest temperature, with the winters as they were. */
export function ColdCurve({ report, origin }: CurveProps): ReactNode {
  const phone = usePhone();
  const measure = measureOf('°C', useUnits());
  const box = useRef<HTMLElement>(null);
  // The border of the drawing takes four pixels.
  const width = Math.max(260, useWidth(box, phone ? 340 : 760) - 4);
  const height = phone ? 270 : 360;
  const together = report.curves.filter(({ of }) => of !== 'origin');
  const drawn = origin ? [...together, origin] : together;
  const winters = notedWinters(report);
  const across = numberLine(
    winters.map(({ minimum }) => measure.toShown(minimum)),
    phone ? 6 : 12,
  );
  const up = numberLine(
    [1, ...winters.map(({ share }) => share), ...drawn.flatMap(({ points }) => points.map(({ low }) => low))],
    8,
  );
  const place = placing(across, up, measure, { width, height });
  const most = Math.max(...winters.map(({ stood }) => stood));
  const marks = winters.map((winter) => ({
    ...winter,
    ...place(winter.minimum, winter.share),
    radius: Math.max(3, 10 * Math.sqrt(winter.stood / most)),
    words: String(winter.winter),
  }));
  const labels = labelsBeside(
    marks.map((mark) => ({ ...mark, width: mark.words.length * 6.6 })),
    { width, height: height - margin.bottom },
  );
  return (
    <figure ref={box} className="cold-curve">
      <svg width={width} height={height} role="img" aria-labelledby="cold-curve-told">
        <title id="cold-curve-told">
          Chance to come through a winter by its lowest temperature; the tables below have its numbers
        </title>
        {up.ticks
          .filter((tick) => tick <= 1)
          .map((tick) => {
            const { y } = place(0, tick);
            return (
              <g key={tick}>
                <line className="cold-rule" x1={margin.left} x2={width - margin.right} y1={y} y2={y} />
                <text className="cold-up" x={margin.left - 8} y={y + 4}>
                  {tickInPerCent(tick)}
                </text>
              </g>
            );
          })}
        {across.ticks.map((tick) => {
          const x = margin.left + across.at(tick) * (width - margin.left - margin.right);
          return (
            <g key={tick}>
              <line className="cold-rule" x1={x} x2={x} y1={margin.top} y2={height - margin.bottom} />
              <text className="cold-across" x={x} y={height - 8}>
                {minus(String(tick))} {measure.unit}
              </text>
            </g>
          );
        })}
        {drawn.map(({ of, points }) => (
          <g key={of} className={curveLook[of]}>
            <path className="cold-band" d={bandThrough(points, place)} />
            <path
              className="cold-line"
              d={pathThrough(points.map((point) => place(point.minimum, point.chance)))}
            />
          </g>
        ))}
        {marks.map(({ of, winter, x, y, radius }) => (
          <g key={`${of} ${winter}`} className={curveLook[of]}>
            <path className="cold-winter" d={winterMark(of, x, y, radius)} />
          </g>
        ))}
        {marks.map(({ of, winter, words }, index) => (
          <text key={`${of} ${winter}`} className="cold-words" x={labels[index]?.x} y={labels[index]?.y}>
            {words}
          </text>
        ))}
      </svg>
      <figcaption>
        <CurveLegend drawn={drawn} />
      </figcaption>
    </figure>
  );
}

type Place = (minimum: number, share: number) => { x: number; y: number };

const placing =
  (across: Line, up: Line, measure: Measure, size: { width: number; height: number }): Place =>
  (minimum, share) => ({
    x: margin.left + across.at(measure.toShown(minimum)) * (size.width - margin.left - margin.right),
    y: size.height - margin.bottom - up.at(share) * (size.height - margin.top - margin.bottom),
  });

const pathThrough = (points: readonly { x: number; y: number }[]): string =>
  points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

const bandThrough = (points: WinterCurve['points'], place: Place): string =>
  `${pathThrough([
    ...points.map(({ minimum, high }) => place(minimum, high)),
    ...points.map(({ minimum, low }) => place(minimum, low)).reverse(),
  ])}Z`;

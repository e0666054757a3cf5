import { roundLength } from '../beds/geometry.ts';

/** A number line: where a value lies on it, from 0 to 1, and round values to write on it. */
export interface Line {
  readonly ticks: readonly number[];
  at(value: number): number;
}

/** A line that holds all values, with about `wanted` ticks at round distances. */
export function numberLine(values: readonly number[], wanted: number): Line {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (!(high > low)) return { ticks: Number.isFinite(low) ? [low] : [], at: () => 0.5 };
  const margin = (high - low) * 0.02;
  const [from, to] = [low - margin, high + margin];
  const step = roundLength((to - from) / wanted);
  const first = Math.ceil(from / step);
  const ticks = Array.from(
    { length: Math.floor(to / step) - first + 1 },
    (_, index) => (first + index) * step,
  );
  return {
    // Twelve digits: 3 × 0.1 is written 0.3.
    ticks: ticks.map((tick) => Number(tick.toPrecision(12))),
    at: (value) => (value - from) / (to - from),
  };
}

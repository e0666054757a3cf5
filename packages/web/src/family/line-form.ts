import type { Point } from './layout.ts';

/** A line through the points with upright beginnings and ends, as cubic curves from row to row. */
export function curveThrough(points: readonly Point[]): string {
  const [first, ...rest] = points;
  if (!first) return '';
  let from = first;
  const parts = [`M${round(first.x)} ${round(first.y)}`];
  for (const to of rest) {
    const half = (from.y + to.y) / 2;
    parts.push(
      `C${round(from.x)} ${round(half)} ${round(to.x)} ${round(half)} ${round(to.x)} ${round(to.y)}`,
    );
    from = to;
  }
  return parts.join('');
}

const round = (number: number): number => Math.round(number * 10) / 10;

/** Where a chance is written: on the last stretch, nearer to the child. */
export function labelPlace(points: readonly Point[]): Point {
  const to = points[points.length - 1] ?? { x: 0, y: 0 };
  const from = points[points.length - 2] ?? to;
  // The curve of curveThrough at two thirds of its way (Bernstein weights of a cubic at t = 2/3).
  return {
    x: from.x * (7 / 27) + to.x * (20 / 27),
    y: from.y + (to.y - from.y) * (2 / 3) + (to.y - from.y) * 0.02,
  };
}

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

/** A point of the curve's last stretch, at t from 0 (its beginning) to 1 (the child), by Bernstein weights. */
export function pointOnLast(points: readonly Point[], t: number): Point {
  const to = points[points.length - 1] ?? { x: 0, y: 0 };
  const from = points[points.length - 2] ?? to;
  const half = (from.y + to.y) / 2;
  const [b0, b1, b2, b3] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
  return { x: (b0 + b1) * from.x + (b2 + b3) * to.x, y: b0 * from.y + (b1 + b2) * half + b3 * to.y };
}

export const labelWidth = 36;
export const labelHeight = 18;

/** Where the chances of lines are written: each on its own line, near the child, and none upon another if it can be. */
export function placeLabels(lines: readonly (readonly Point[])[]): Point[] {
  const placed: Point[] = [];
  for (const points of lines) {
    const places = [0.72, 0.84, 0.58, 0.46, 0.34, 0.92].map((t) => pointOnLast(points, t));
    placed.push(places.find((place) => !placed.some((other) => touching(place, other))) ?? places[0]!);
  }
  return placed;
}

export const touching = (a: Point, b: Point): boolean =>
  Math.abs(a.x - b.x) < labelWidth && Math.abs(a.y - b.y) < labelHeight;

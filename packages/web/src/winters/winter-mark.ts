import type { WinterCurve } from '@keelrow/server/contract';

/** The mark of a winter around a point: a triangle for first winters, else a disc. */
export function winterMark(of: WinterCurve['of'], x: number, y: number, radius: number): string {
  const at = (dx: number, dy: number): string => `${(x + dx).toFixed(1)} ${(y + dy).toFixed(1)}`;
  if (of === 'first winters')
    return `M${at(-radius, radius * 0.8)}L${at(radius, radius * 0.8)}L${at(0, -radius)}Z`;
  const r = radius.toFixed(1);
  const wide = (2 * radius).toFixed(1);
  return `M${at(-radius, 0)}a${r} ${r} 0 1 0 ${wide} 0a${r} ${r} 0 1 0 -${wide} 0Z`;
}

import type { TreeLayout } from './layout.ts';

/** The member to which an arrow key leads: a parent, a child, or the neighbour in the row; null if there is none. */
export function walkTo(layout: TreeLayout, from: string, key: string): string | null {
  const here = layout.places.get(from);
  if (!here) return null;
  const steps: Record<string, [number, number]> = {
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
  };
  const step = Object.hasOwn(steps, key) ? steps[key]! : null;
  if (!step) return null;
  const [sideways, down] = step;
  const candidates = [...layout.places].filter(([id, place]) => {
    if (id === from) return false;
    if (down !== 0) return (place.rank - here.rank) * down > 0 && tied(layout, from, id);
    return place.rank === here.rank && (place.x - here.x) * sideways > 0;
  });
  candidates.sort(
    ([, a], [, b]) => Math.hypot(a.x - here.x, a.y - here.y) - Math.hypot(b.x - here.x, b.y - here.y),
  );
  return candidates[0]?.[0] ?? null;
}

const tied = ({ lines }: TreeLayout, a: string, b: string): boolean =>
  lines.some(
    ({ link }) => (link.parent === a && link.child === b) || (link.parent === b && link.child === a),
  );

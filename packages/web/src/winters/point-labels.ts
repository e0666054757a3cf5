/** A mark in a drawing, and the size of the words that belong beside it, in pixels. */
export interface Marked {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly width: number;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const height = 15;
const gap = 3;

/**
 * Where the words of each mark begin and stand, in the order given: beside, above or below it, where they cover no other
 * mark and no other words; the largest marks choose first. Where all places are taken, the one that covers least.
 */
export function labelsBeside(
  marks: readonly Marked[],
  frame: { readonly width: number; readonly height: number },
): { readonly x: number; readonly y: number }[] {
  const discs = marks.map(({ x, y, radius }) => around(x, y, radius));
  const taken: Box[] = [];
  const found: { x: number; y: number }[] = [];
  const order = [...marks.keys()].sort((a, b) => marks[b]!.radius - marks[a]!.radius || a - b);
  for (const index of order) {
    const mark = marks[index]!;
    const others = [...taken, ...discs.filter((_, other) => other !== index)];
    const costs = placesOf(mark).map((box) => ({
      box,
      cost: others.reduce((sum, other) => sum + shared(box, other), 0) + outside(box, frame),
    }));
    const { box } = costs.reduce((a, b) => (b.cost < a.cost - 0.5 ? b : a));
    taken.push(box);
    found[index] = { x: box.left, y: box.bottom - 4 };
  }
  return found;
}

const around = (x: number, y: number, radius: number): Box => ({
  left: x - radius,
  right: x + radius,
  top: y - radius,
  bottom: y + radius,
});

function placesOf({ x, y, radius, width }: Marked): Box[] {
  const box = (left: number, top: number): Box => ({ left, right: left + width, top, bottom: top + height });
  const [beside, above, below] = [y - height / 2, y - radius - gap - height, y + radius + gap];
  return [
    box(x + radius + gap, beside),
    box(x - width / 2, below),
    box(x - width / 2, above),
    box(x - radius - gap - width, beside),
    ...[1, 2, 3].flatMap((row) => [
      box(x - width / 2, below + row * height),
      box(x - width / 2, above - row * height),
    ]),
  ];
}

const shared = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) *
  Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top));

const outside = (box: Box, frame: { readonly width: number; readonly height: number }): number =>
  (box.right - box.left) * (box.bottom - box.top) -
  shared(box, { left: 0, top: 0, right: frame.width, bottom: frame.height });

import { type BedPanels, isPlaced, type Panel, type Spot } from './residual-panels.ts';

/** A spot with its place in a drawing, in pixels. */
export interface Placed {
  readonly spot: Spot;
  readonly x: number;
  readonly y: number;
}
export interface PanelDrawing {
  readonly width: number;
  readonly height: number;
  readonly placed: readonly Placed[];
  /** Plants whose place nobody noted, where others have one. */
  readonly unplaced: number;
  /** The places are true ones, north up; else plants are heaped along a line from less to more than expected. */
  readonly byPlace: boolean;
}

interface Size {
  readonly width: number;
  readonly highest: number;
  readonly margin: number;
}

/** Where the plants of one bed and year are drawn; all years of a bed share one frame and so can be held side by side. */
export function drawPanel(frame: BedPanels['frame'], panel: Panel, size: Size): PanelDrawing {
  return frame === null ? heaped(panel, size) : byPlace(frame, panel, size);
}

function byPlace(
  { west, south, width, height }: NonNullable<BedPanels['frame']>,
  { spots }: Panel,
  size: Size,
): PanelDrawing {
  const [innerWidth, innerHeight] = [size.width - 2 * size.margin, size.highest - 2 * size.margin];
  const scale = Math.min(
    width > 0 ? innerWidth / width : Number.POSITIVE_INFINITY,
    height > 0 ? innerHeight / height : Number.POSITIVE_INFINITY,
  );
  const metre = Number.isFinite(scale) ? scale : 0;
  const left = size.margin + (innerWidth - width * metre) / 2;
  const tall = height * metre + 2 * size.margin;
  const known = spots.filter(isPlaced);
  return {
    width: size.width,
    height: tall,
    placed: known.map((spot) => ({
      spot,
      x: left + (spot.east - west) * metre,
      y: tall - size.margin - (spot.north - south) * metre,
    })),
    unplaced: spots.length - known.length,
    byPlace: true,
  };
}

/** Without places: heaps along a line, a heap for each quarter of a spread, cut off at four spreads. */
function heaped({ spots }: Panel, size: Size): PanelDrawing {
  const heaps = new Map<number, number>();
  const middle = size.width / 2;
  const apart = (middle - size.margin) / 16;
  const placed = [...spots]
    .sort((a, b) => a.off - b.off)
    .map((spot) => {
      const heap = Math.max(-16, Math.min(16, Math.round(spot.off * 4)));
      const level = heaps.get(heap) ?? 0;
      heaps.set(heap, level + 1);
      return { spot, x: middle + heap * apart, level };
    });
  const highest = Math.max(1, ...heaps.values());
  const rise = Math.min(2 * size.margin, (size.highest - 2 * size.margin) / highest);
  const height = Math.max(3 * size.margin, highest * rise + 2 * size.margin);
  return {
    width: size.width,
    height,
    placed: placed.map(({ spot, x, level }) => ({ spot, x, y: height - size.margin - level * rise })),
    unplaced: 0,
    byPlace: false,
  };
}

/** The nearest spot in the direction of an arrow key; null where there is none, or for any other key. */
export function nextSpot(placed: readonly Placed[], from: string, key: string): string | null {
  const here = placed.find(({ spot }) => spot.key === from);
  const directions: Record<string, readonly [number, number]> = {
    ArrowRight: [1, 0],
    ArrowLeft: [-1, 0],
    ArrowDown: [0, 1],
    ArrowUp: [0, -1],
  };
  const direction = Object.hasOwn(directions, key) ? directions[key] : undefined;
  if (!here || !direction) return null;
  const [dx, dy] = direction;
  let best: { key: string; cost: number } | null = null;
  for (const { spot, x, y } of placed) {
    const along = (x - here.x) * dx + (y - here.y) * dy;
    const aside = Math.abs((x - here.x) * dy + (y - here.y) * dx);
    // What lies further aside than ahead belongs to another arrow.
    if (along <= 0.5 || aside > along) continue;
    const cost = along + 2 * aside;
    if (!best || cost < best.cost) best = { key: spot.key, cost };
  }
  return best?.key ?? null;
}

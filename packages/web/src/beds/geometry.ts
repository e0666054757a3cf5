import type { BedShown } from '@keelrow/server/contract';

export interface Spot {
  readonly east: number;
  readonly north: number;
}
export type MeasuredBed = BedShown & {
  readonly eastM: number;
  readonly northM: number;
  readonly lengthM: number;
  readonly widthM: number;
};

export const isMeasured = (bed: BedShown): bed is MeasuredBed =>
  bed.eastM !== null && bed.northM !== null && bed.lengthM !== null && bed.widthM !== null;

/** The corners of a bed in its site, in metres: from its first corner along its length, then round. */
export function cornersOf(bed: MeasuredBed): readonly Spot[] {
  const angle = (bed.turned * Math.PI) / 180;
  const [along, across] = [
    { east: Math.cos(angle) * bed.lengthM, north: Math.sin(angle) * bed.lengthM },
    { east: -Math.sin(angle) * bed.widthM, north: Math.cos(angle) * bed.widthM },
  ];
  const first = { east: bed.eastM, north: bed.northM };
  const plus = (a: Spot, b: Spot): Spot => ({ east: a.east + b.east, north: a.north + b.north });
  return [first, plus(first, along), plus(plus(first, along), across), plus(first, across)];
}

export interface Bounds {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

export function boundsOf(spots: readonly Spot[], margin: number): Bounds {
  const easts = spots.map(({ east }) => east);
  const norths = spots.map(({ north }) => north);
  return {
    west: Math.min(...easts) - margin,
    south: Math.min(...norths) - margin,
    east: Math.max(...easts) + margin,
    north: Math.max(...norths) + margin,
  };
}

/** A round length (1, 2 or 5 times a power of ten) for a scale bar, at most `most` long. */
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((factor) => factor * power).find((length) => length <= most * (1 + 1e-9)) ?? power;
}

/** The lower quarter of all distances to the nearest neighbour, in metres: it says how large marks may be. */
export function usualDistance(spots: readonly Spot[]): number | null {
  if (spots.length < 2) return null;
  const nearest = spots.map((spot, index) =>
    Math.min(
      ...spots.map((other, otherIndex) =>
        index === otherIndex
          ? Number.POSITIVE_INFINITY
          : Math.hypot(spot.east - other.east, spot.north - other.north),
      ),
    ),
  );
  nearest.sort((a, b) => a - b);
  return nearest[Math.floor(nearest.length / 4)]!;
}

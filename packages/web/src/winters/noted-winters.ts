import type { WinterCurve, WintersReport } from '@keelrow/server/contract';

/** Plants of one winter as they were: how many stood, and the share that came through. */
export interface NotedWinter {
  readonly winter: number;
  readonly minimum: number;
  readonly stood: number;
  readonly share: number;
  /** The curve that it belongs to. */
  readonly of: WinterCurve['of'];
}

/** What was noted of each winter with a known minimum, apart for each of the curves of all origins. */
export function notedWinters({ winters, curves }: WintersReport): NotedWinter[] {
  return curves.flatMap(({ of }) => {
    if (of === 'origin') return [];
    return winters.flatMap(({ winter, minimum, first, ...all }) => {
      const [stood, lost] =
        of === 'first winters'
          ? [first.stood, first.lost]
          : of === 'later winters'
            ? [all.stood - first.stood, all.lost - first.lost]
            : [all.stood, all.lost];
      return minimum === null || stood === 0 ? [] : [{ winter, minimum, stood, share: 1 - lost / stood, of }];
    });
  });
}

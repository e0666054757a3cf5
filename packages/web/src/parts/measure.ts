import { convert, convertible, shownUnit } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { programmeQuery } from '../api/queries.ts';

export type Units = 'metric' | 'us';

/** How numbers of one stored unit are shown and typed: metric or customary, as the programme speaks. */
export interface Measure {
  readonly unit: string | null;
  toShown(stored: number): number;
  toStored(shown: number): number;
  /** For differences and standard errors, where a scale's zero does not matter (°C and °F). */
  spanToShown(stored: number): number;
}

const asStored = (unit: string | null): Measure => ({
  unit,
  toShown: (number) => number,
  toStored: (number) => number,
  spanToShown: (number) => number,
});

export function measureOf(stored: string | null, speaks: Units): Measure {
  const shown = stored === null ? null : shownUnit(stored, speaks);
  if (stored === null || shown === null || shown === stored || !convertible(stored, shown))
    return asStored(stored);
  return {
    unit: shown,
    toShown: (number) => convert(number, stored, shown),
    toStored: (number) => convert(number, shown, stored),
    spanToShown: (number) => convert(number, stored, shown) - convert(0, stored, shown),
  };
}

export function useUnits(): Units {
  return useQuery(programmeQuery).data?.settings.units ?? 'metric';
}

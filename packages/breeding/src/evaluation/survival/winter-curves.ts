import type { LogitFit } from './logit-by-group.ts';
import { chanceOf, meanChance, type WinterChance } from './winter-chance.ts';

/** The chance to come through a winter by its lowest temperature. */
export interface WinterCurve {
  /**
   * Plants of all origins as they stood: in their first winter, in later ones, or in any where these were not told apart;
   * or the middle genet of one origin in a later winter.
   */
  readonly of: 'first winters' | 'later winters' | 'all winters' | 'origin';
  /** Null unless of an origin. */
  readonly origin: string | null;
  /** From the coldest winter noted to the mildest, °C. */
  readonly points: readonly (WinterChance & { readonly minimum: number })[];
}

/** Plants that differ in nothing but their genet. */
export interface PlantsAlike {
  readonly origin: string;
  readonly first: boolean;
}

const steps = 24;

/**
 * Curves over the minima noted, never beyond them: plants of all origins, which the shares alive of the winters can be held
 * against, then each origin.
 *
 * @param rows origin and first winter of each plant in each winter
 * @param firstApart whether the model tells first winters from later ones
 * @param columnsOf the fixed columns of such plants in a winter with this minimum, °C
 */
export function winterCurves(
  fit: LogitFit,
  rows: readonly PlantsAlike[],
  firstApart: boolean,
  minima: readonly number[],
  columnsOf: (plants: PlantsAlike & { readonly minimum: number }) => readonly number[],
): WinterCurve[] {
  const [coldest, mildest] = [Math.min(...minima), Math.max(...minima)];
  const origins = [...new Set(rows.map(({ origin }) => origin))].sort();
  const pointsOf = (at: (minimum: number) => WinterChance): WinterCurve['points'] =>
    Array.from({ length: steps + 1 }, (_, k) => {
      const minimum = coldest + ((mildest - coldest) * k) / steps;
      return { minimum, ...at(minimum) };
    });
  const together = (of: WinterCurve['of'], standing: readonly PlantsAlike[]): WinterCurve => {
    const shares = origins.map((origin) => ({
      origin,
      share: standing.filter((row) => row.origin === origin).length / standing.length,
    }));
    const first = of === 'first winters';
    const points = pointsOf((minimum) =>
      meanChance(
        fit,
        shares.map(({ origin, share }) => ({ share, columns: columnsOf({ origin, first, minimum }) })),
      ),
    );
    return { of, origin: null, points };
  };
  return [
    ...(firstApart
      ? [
          together(
            'later winters',
            rows.filter(({ first }) => !first),
          ),
          together(
            'first winters',
            rows.filter(({ first }) => first),
          ),
        ]
      : [together('all winters', rows)]),
    ...origins.map((origin) => ({
      of: 'origin' as const,
      origin,
      points: pointsOf((minimum) => chanceOf(fit, columnsOf({ origin, first: false, minimum }), 0, 0)),
    })),
  ];
}

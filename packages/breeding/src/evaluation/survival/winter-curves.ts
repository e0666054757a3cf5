import type { LogitFit } from './logit-by-group.ts';
import { chanceOf, meanChance, type WinterChance } from './winter-chance.ts';

/** The chance to come through a winter by its lowest temperature. */
export interface WinterCurve {
  /** Null: all plants together, as they stood, first winters too; else the middle genet of the origin in a later winter. */
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
 * Curves over the minima noted, never beyond them: all plants together, which the shares alive of the winters can be held
 * against, then each origin.
 *
 * @param rows origin and first winter of each plant in each winter
 * @param columnsOf the fixed columns of such plants in a winter with this minimum, °C
 */
export function winterCurves(
  fit: LogitFit,
  rows: readonly PlantsAlike[],
  origins: readonly string[],
  minima: readonly number[],
  columnsOf: (plants: PlantsAlike & { readonly minimum: number }) => readonly number[],
): WinterCurve[] {
  const [coldest, mildest] = [Math.min(...minima), Math.max(...minima)];
  const curve = (origin: string | null, at: (minimum: number) => WinterChance): WinterCurve => ({
    origin,
    points: Array.from({ length: steps + 1 }, (_, k) => {
      const minimum = coldest + ((mildest - coldest) * k) / steps;
      return { minimum, ...at(minimum) };
    }),
  });
  const alike = [true, false].flatMap((first) =>
    origins.map((origin) => ({
      origin,
      first,
      share: rows.filter((row) => row.first === first && row.origin === origin).length / rows.length,
    })),
  );
  return [
    curve(null, (minimum) =>
      meanChance(
        fit,
        alike.map(({ share, ...plants }) => ({ share, columns: columnsOf({ ...plants, minimum }) })),
      ),
    ),
    ...origins.map((origin) =>
      curve(origin, (minimum) => chanceOf(fit, columnsOf({ origin, first: false, minimum }), 0, 0)),
    ),
  ];
}

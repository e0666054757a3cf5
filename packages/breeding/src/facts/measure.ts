import { convert, convertible, shownUnit } from './units.ts';

/** What a programme speaks; numbers are stored metric all the same. */
export type Units = 'metric' | 'us';

/** How numbers of one stored unit are shown and typed: metric or customary, as the programme speaks. */
export interface Measure {
  /** The unit shown; null for numbers without one. */
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

/** The measure of a stored unit; a unit of the breeder's own that nothing is known of is shown as it is stored. */
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

/** Units whose sign is a word of its own: “back in in” is no sentence. */
const spelled: Readonly<Record<string, string>> = { in: 'inches', ft: 'feet', oz: 'ounces' };

/** The unit in which a stored number is shown, for a sentence that names it without a number; null without a unit. */
export function unitInWords(stored: string | null, speaks: Units): string | null {
  const { unit } = measureOf(stored, speaks);
  return unit === null ? null : (spelled[unit] ?? unit);
}

/** A stored number with its unit for a sentence: as it was stored, or converted to a hundredth; “−3.5 °C”. */
export function inWords(stored: number, { unit, toShown }: Measure): string {
  const shown = toShown(stored);
  const number = String(shown === stored ? stored : Number(shown.toFixed(2))).replace('-', '−');
  return unit ? `${number} ${unit}` : number;
}

/**
 * Units of measure: numbers are stored metric; files and screens may speak US customary units.
 * Factors: the international yard and pound (1959): 1 in = 2.54 cm exactly, 1 lb = 453.59237 g exactly.
 */

interface Measure {
  /** The metric unit in which a number of this measure is stored, by the unit asked for. */
  readonly dimension: 'length' | 'mass' | 'temperature' | 'share' | 'time' | 'angle' | 'count';
  /** stored base = (number − offset) × factor, base being m, g, °C, 1, day, degree, one. */
  readonly factor: number;
  readonly offset?: number;
}

const measures: Record<string, Measure> = {
  mm: { dimension: 'length', factor: 0.001 },
  cm: { dimension: 'length', factor: 0.01 },
  m: { dimension: 'length', factor: 1 },
  in: { dimension: 'length', factor: 0.0254 },
  ft: { dimension: 'length', factor: 0.3048 },
  yd: { dimension: 'length', factor: 0.9144 },
  mg: { dimension: 'mass', factor: 0.001 },
  g: { dimension: 'mass', factor: 1 },
  kg: { dimension: 'mass', factor: 1000 },
  oz: { dimension: 'mass', factor: 28.349523125 },
  lb: { dimension: 'mass', factor: 453.59237 },
  '°C': { dimension: 'temperature', factor: 1 },
  '°F': { dimension: 'temperature', factor: 5 / 9, offset: 32 },
  '%': { dimension: 'share', factor: 0.01 },
  days: { dimension: 'time', factor: 1 },
  weeks: { dimension: 'time', factor: 7 },
  years: { dimension: 'time', factor: 365.25 },
  '°': { dimension: 'angle', factor: 1 },
};

/** Whether a number in one unit can be turned into the other. */
export const convertible = (from: string, to: string): boolean =>
  from === to || (measures[from] !== undefined && measures[from]?.dimension === measures[to]?.dimension);

/**
 * A number turned from one unit into another; both must be known and of one dimension (see convertible).
 * Stored (metric) results keep twelve digits, enough for any measurement and few enough that 12 in is 30.48 cm and
 * not 30.479999999999997; shown (customary) ones fifteen, so that what was stored comes back to the digit.
 */
export function convert(number: number, from: string, to: string): number {
  if (from === to) return number;
  const [a, b] = [measures[from]!, measures[to]!];
  const digits = Object.values(customary).includes(to) ? 15 : 12;
  return Number((((number - (a.offset ?? 0)) * a.factor) / b.factor + (b.offset ?? 0)).toPrecision(digits));
}

const customary: Record<string, string> = { mm: 'in', cm: 'in', m: 'ft', g: 'oz', '°C': '°F' };

/** The unit in which a stored number is shown where the programme speaks US customary units. */
export const shownUnit = (stored: string, speaks: 'metric' | 'us'): string =>
  speaks === 'us' ? (customary[stored] ?? stored) : stored;

const metric: Record<string, string> = { in: 'cm', ft: 'm', yd: 'm', oz: 'g', lb: 'kg', '°F': '°C' };

/** The metric unit in which numbers written in a unit are stored. */
export const storedUnit = (written: string): string => metric[written] ?? written;

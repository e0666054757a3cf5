const signs: Readonly<Record<string, number>> = {
  '⅛': 1 / 8,
  '¼': 1 / 4,
  '⅜': 3 / 8,
  '½': 1 / 2,
  '⅝': 5 / 8,
  '¾': 3 / 4,
  '⅞': 7 / 8,
};

/** A number as it is typed on a rule: `36.5`, `36,5`, `36½`, `36 1/2`, `3/4`; null where it is none. */
export function readMeasured(typed: string): number | null {
  const text = typed.trim().replace('−', '-');
  const sign = /^(-?\d*)\s*([⅛¼⅜½⅝¾⅞])$/.exec(text);
  if (sign) return Number(sign[1] === '' ? 0 : sign[1]) + signs[sign[2]!]!;
  const fraction = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(text);
  if (fraction) {
    const [whole, above, below] = [Number(fraction[1] ?? 0), Number(fraction[2]), Number(fraction[3])];
    return [2, 4, 8, 16, 32].includes(below) && above < below ? whole + above / below : null;
  }
  return /^-?\d+(?:[.,]\d*)?$/.test(text) || /^-?[.,]\d+$/.test(text) ? Number(text.replace(',', '.')) : null;
}

/** A number of inches with an eighth as people write it: 36.5 as `36½`; any other number with its decimals. */
export function writeInches(inches: number): string {
  const whole = Math.floor(inches);
  const part = inches - whole;
  const sign = Object.entries(signs).find(([, size]) => Math.abs(size - part) < 1e-6)?.[0];
  if (Math.abs(part) < 1e-6) return String(whole);
  if (sign && inches > 0) return whole === 0 ? sign : `${whole}${sign}`;
  return String(Number(inches.toFixed(2)));
}

/** The parts of an inch that are offered after its whole number. */
export const quarters: readonly number[] = [0, 0.25, 0.5, 0.75];

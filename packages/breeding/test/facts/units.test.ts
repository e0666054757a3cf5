import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, convertible, shownUnit, storedUnit, unitNamed } from '../../src/facts/index.ts';

/**
 * Reference: NIST Special Publication 811 (2008), appendix B.8: 1 in = 2.54 cm, 1 ft = 0.3048 m, 1 yd = 0.9144 m,
 * 1 lb = 453.592 37 g, 1 oz = 28.349 523 125 g, t/°C = (t/°F − 32)/1.8; exact.
 */
describe('units', () => {
  it('turn by the exact factors', () => {
    expect(convert(12, 'in', 'cm')).toBe(30.48);
    expect(convert(1, 'ft', 'm')).toBe(0.3048);
    expect(convert(1, 'yd', 'm')).toBe(0.9144);
    expect(convert(1, 'lb', 'g')).toBe(453.59237);
    expect(convert(1, 'oz', 'g')).toBe(28.349523125);
    expect([32, 212, -40, 90].map((degrees) => convert(degrees, '°F', '°C'))).toEqual([
      0, 100, -40, 32.2222222222,
    ]);
    expect(convert(0, '°C', '°F')).toBe(32);
  });

  it('give back to the digit what was stored, shown in US customary units and read again', () => {
    const stored = fc.constantFrom('cm', 'm', 'mm', 'g', '°C');
    const numbers = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((number) => number / 1000);
    fc.assert(
      fc.property(stored, numbers, (unit, number) => {
        const shown = shownUnit(unit, 'us');
        expect(convert(convert(number, unit, shown), shown, unit)).toBe(number);
      }),
      { seed: 2, numRuns: 5000 },
    );
  });

  it('are known under the names people write, and not mixed up', () => {
    expect(['Inches', '″', 'in.', 'ft', 'degC', '℉', 'per cent', 'weeks'].map(unitNamed)).toEqual([
      'in',
      'in',
      'in',
      'ft',
      '°C',
      '°F',
      '%',
      'weeks',
    ]);
    expect(unitNamed('spikes')).toBeNull();
    expect(convertible('in', 'cm')).toBe(true);
    expect(convertible('in', 'g')).toBe(false);
    expect(storedUnit('in')).toBe('cm');
  });
});

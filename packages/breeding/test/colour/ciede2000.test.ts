import { readFileSync } from 'node:fs';
import { colourDifference } from '@keelrow/breeding/colour';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** Source: Sharma, Wu & Dalal 2005, Table 1: 34 pairs, among them hues across 0° and neutrals. */
const pairs = readFileSync(new URL('./fixtures/ciede2000-pairs.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(2)
  .map((line) => line.split(',').map(Number));

const lab = fc.record({
  l: fc.double({ min: 0, max: 100, noNaN: true }),
  a: fc.double({ min: -120, max: 120, noNaN: true }),
  b: fc.double({ min: -120, max: 120, noNaN: true }),
});

describe('colour difference', () => {
  it('agrees with the 34 published pairs to their four decimals', () => {
    expect(pairs).toHaveLength(34);
    for (const [pair, l1, a1, b1, l2, a2, b2, published] of pairs) {
      const { total } = colourDifference({ l: l1!, a: a1!, b: b1! }, { l: l2!, a: a2!, b: b2! });
      expect(Math.abs(total - published!), `pair ${pair}: ${total}, published ${published}`).toBeLessThan(
        0.5001e-4,
      );
    }
  });

  it('is the same either way and 0 for a colour with itself', () => {
    fc.assert(
      fc.property(lab, lab, (one, other) => {
        expect(colourDifference(other, one).total).toBeCloseTo(colourDifference(one, other).total, 9);
        expect(colourDifference(one, one).total).toBe(0);
      }),
      { seed: 1 },
    );
  });

  it('says in which way the second differs: lighter, more colourful, turned towards yellow', () => {
    expect(colourDifference({ l: 40, a: 20, b: 0 }, { l: 60, a: 20, b: 0 }).lightness).toBeGreaterThan(10);
    expect(colourDifference({ l: 50, a: 10, b: 0 }, { l: 50, a: 40, b: 0 }).chroma).toBeGreaterThan(5);
    expect(colourDifference({ l: 50, a: 30, b: 0 }, { l: 50, a: 20, b: 20 }).hue).toBeGreaterThan(5);
  });
});

import { measureOf } from '@keelrow/breeding/facts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { farOff, median, modifiedZ } from '../../src/walk/slips/robust-distance.ts';
import { type Compared, slipQuestion } from '../../src/walk/slips/slip.ts';
import { heldTrait } from './walk-garden.ts';

describe('robust distance', () => {
  test('agrees with the definition, by the median of Python’s statistics', () => {
    // source: Iglewicz & Hoaglin 1993, 0.6745 (x − median) / MAD; sums by Python 3 statistics.median
    const others = [96, 131, 120, 118, 104, 125, 99, 142, 87, 110, 123];
    expect(median(others)).toBe(118);
    expect(modifiedZ(310, others)).toBeCloseTo(9.961846153846153, 12);
    expect(modifiedZ(60, others)).toBeCloseTo(-3.0093076923076927, 12);
    // where half of them agree: (x − median) / (1.253314 × mean distance)
    expect(modifiedZ(14, [5, 5, 5, 5, 5, 6, 9, 5])).toBeCloseTo(11.48953893437718, 10);
    expect(modifiedZ(5, [5, 5, 5])).toBe(0);
    expect(modifiedZ(4, [5, 5, 5])).toBe(Number.NEGATIVE_INFINITY);
    expect(farOff).toBe(3.5);
  });

  test('moving and stretching all values changes no distance', () => {
    const values = fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(
        values,
        fc.integer({ min: -500, max: 500 }),
        fc.constantFrom(0.5, 2, 8),
        fc.integer(),
        (others, value, by, shift) => {
          const to = (number: number): number => number * by + (shift % 1000);
          expect(modifiedZ(to(value), others.map(to))).toBeCloseTo(modifiedZ(value, others), 8);
        },
      ),
    );
  });

  test('a tenth of the others, however wild, does not hide a slip', () => {
    const others = [...Array.from({ length: 18 }, (_, index) => 100 + index), 9e6, 9e6];
    expect(modifiedZ(1000, others)).toBeGreaterThan(farOff);
  });
});

const height = heldTrait('height', 'measured', { unit: 'cm', least: 1, most: 250 });
const spikes = heldTrait('spike-count', 'counted', { least: 0, most: 150 });
const flower = heldTrait('first-flower', 'staged');
const cm = measureOf('cm', 'metric');
const alone = (year: number, value: number): Compared => ({ before: { year, value }, bed: [], changes: [] });
const none: Compared = { before: null, bed: [], changes: [] };

describe('what is asked about', () => {
  test('a point slipped against last year', () => {
    expect(slipQuestion(height, 15.2, alone(2030, 151), cm)).toBe(
      '15.2 cm? In 2030 this plant had 151 cm; that was 9.9 times as much.',
    );
    expect(slipQuestion(height, 148, alone(2030, 151), cm)).toBeNull();
    expect(slipQuestion(height, 90, alone(2030, 60), cm)).toBeNull();
    expect(slipQuestion(spikes, 120, alone(2030, 12), measureOf(null, 'metric'))).toBe(
      '120? In 2030 this plant had 12; this is 10 times as much.',
    );
    expect(slipQuestion(spikes, 9, alone(2030, 3), measureOf(null, 'metric'))).toBeNull();
  });

  test('in inches where the programme speaks them', () => {
    expect(slipQuestion(height, 15.24, alone(2030, 152.4), measureOf('cm', 'us'))).toBe(
      '6 in? In 2030 this plant had 60 in; that was 10 times as much.',
    );
  });

  test('a value far from the bed, with how far', () => {
    const bed = [96, 131, 120, 118, 104, 125, 99, 142, 87, 110, 123];
    expect(slipQuestion(height, 240, { ...none, bed }, cm)).toBe(
      '240 cm? The middle of 11 others in this bed is 118 cm, and half of them lie within 13 cm of it; this is 122 cm off.',
    );
    expect(slipQuestion(height, 170, { ...none, bed }, cm)).toBeNull();
    // Seven others tell no spread.
    expect(slipQuestion(height, 240, { ...none, bed: bed.slice(0, 7) }, cm)).toBeNull();
  });

  test('growth that the whole bed shows is not asked about, its absence is', () => {
    const changes = Array.from({ length: 12 }, (_, index) => [10 + index, 62 + 6 * index] as const);
    const grown = { before: { year: 2030, value: 14 }, bed: changes.map(([, now]) => now), changes };
    expect(slipQuestion(height, 88, grown, cm)).toBeNull();
    expect(slipQuestion(height, 88, alone(2030, 14), cm)).not.toBeNull();
    expect(slipQuestion(height, 14, grown, cm)).not.toBeNull();
  });

  test('a day far from that of an earlier year, or from the bed', () => {
    // 20 May 2031 is day 140, 5 May 2030 day 125.
    expect(slipQuestion(flower, 140, alone(2030, 125), cm)).toBeNull();
    expect(slipQuestion(flower, 332, alone(2030, 132), cm)).toBe(
      '28 Nov? In 2030 it was 12 May, 200 days earlier.',
    );
    const bed = [138, 139, 140, 140, 141, 141, 142, 143];
    expect(slipQuestion(flower, 170, { ...none, bed }, cm)).toBe(
      '19 Jun? The middle of 8 others in this bed is 21 May; this is 30 days later.',
    );
    expect(slipQuestion(flower, 149, { ...none, bed }, cm)).toBeNull();
  });

  test('nothing is asked where there is nothing to compare with, and points of a scale never are', () => {
    expect(slipQuestion(height, 240, none, cm)).toBeNull();
    expect(
      slipQuestion(heldTrait('lodging', 'scored', { least: 1, most: 9 }), 9, alone(2030, 1), cm),
    ).toBeNull();
  });
});

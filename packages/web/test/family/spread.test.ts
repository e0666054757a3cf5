import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeLabels, pointOnLast, touching } from '../../src/family/line-form.ts';
import { spread } from '../../src/family/spread.ts';

const cost = (places: readonly number[], wished: readonly number[]): number =>
  places.reduce((sum, place, index) => sum + (place - wished[index]!) ** 2, 0);

describe('places in a row', () => {
  test('wishes that leave room are granted', () => {
    expect(spread([0, 10, 30], [0, 5, 5])).toEqual([0, 10, 30]);
  });
  test('two that want the same place move apart evenly', () => {
    expect(spread([10, 10], [0, 6])).toEqual([7, 13]);
  });
  test('no arrangement on a fine grid that keeps the distances comes nearer to the wishes', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 3, maxLength: 3 }),
        fc.integer({ min: 1, max: 4 }),
        (wished, gap) => {
          const best = spread(wished, [0, gap, gap]);
          let least = Number.POSITIVE_INFINITY;
          for (let a = -16; a <= 16; a += 0.5)
            for (let b = a + gap; b <= 16; b += 0.5)
              for (let c = b + gap; c <= 16; c += 0.5) least = Math.min(least, cost([a, b, c], wished));
          expect(best[1]! - best[0]!).toBeGreaterThanOrEqual(gap - 1e-9);
          expect(best[2]! - best[1]!).toBeGreaterThanOrEqual(gap - 1e-9);
          expect(cost(best, wished)).toBeLessThanOrEqual(least + 1e-9);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe('chances written on lines', () => {
  test('a curve begins and ends at its points and passes their middle at half its way', () => {
    const points = [
      { x: 0, y: 0 },
      { x: 40, y: 100 },
    ];
    expect(pointOnLast(points, 0)).toEqual({ x: 0, y: 0 });
    expect(pointOnLast(points, 1)).toEqual({ x: 40, y: 100 });
    expect(pointOnLast(points, 0.5)).toEqual({ x: 20, y: 50 });
  });
  test('two lines between the same two boxes get labels that do not touch', () => {
    const from = { x: 200, y: 0 };
    const labels = placeLabels([
      [from, { x: 0, y: 66 }],
      [from, { x: 48, y: 66 }],
      [from, { x: 24, y: 66 }],
    ]);
    for (const [index, a] of labels.entries())
      for (const b of labels.slice(index + 1)) expect(touching(a, b)).toBe(false);
  });
});

import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { gardenSums, type HeldPoint, pooled } from '../../src/index.ts';

/** Points whose true value is the estimate and a normal error: what best linear predictions promise. */
function gardens(count: number, toldError: number, generations = 2) {
  const random = seededRandom('gardens');
  return Array.from({ length: count }, () => {
    const points = Array.from({ length: 200 }, (_, k): HeldPoint => {
      const estimate = random.normal(0, 0.8);
      return {
        generation: k % generations,
        noted: true,
        estimate,
        truth: estimate + random.normal(0, 0.6),
        half: 1.281552 * toldError,
        errorVariance: toldError ** 2,
        spread: 1,
      };
    });
    return [gardenSums(points)];
  });
}

describe('estimates held against the truth', () => {
  it('are found right where they are', () => {
    // source: definitions; 80% of a normal lies within 1.281552 standard deviations (from memory, any normal table).
    const { held, correlation, promised, shown, slope, bias, ranges } = pooled(gardens(60, 0.6));
    expect(ranges).toBe(12_000);
    for (const [found, expected] of [
      [held, 0.8],
      [correlation, 0.8],
      [promised, 0.8],
      [slope, 1],
      [bias[0]!, 0],
      [bias[1]!, 0],
    ] as const) {
      expect(found.se).toBeGreaterThan(0);
      expect(found.se).toBeLessThan(0.02);
      expect(Math.abs(found.value - expected)).toBeLessThan(4 * found.se);
    }
    expect(shown.value).toBeCloseTo(0.8, 12);
  });

  it('are found too sure where their errors are told too small', () => {
    const { held, promised, correlation } = pooled(gardens(30, 0.3));
    // Φ(1.2816 × 0.3/0.6) − Φ(−…) = 0.478 (source: any normal table, z = 0.6408).
    expect(Math.abs(held.value - 0.478)).toBeLessThan(4 * held.se);
    expect(promised.value - correlation.value).toBeGreaterThan(0.1);
  });

  it('have the errors of a mean over gardens', () => {
    // Two gardens that hold 3 of 4 and 1 of 4: the jackknife of a mean of two is half their difference.
    const garden = (held: number) => [
      gardenSums(
        [0, 1, 2, 3].map((k) => ({
          generation: 0,
          noted: true,
          estimate: k,
          truth: k + (k < held ? 0 : 5),
          half: 1,
          errorVariance: 1,
          spread: 2,
        })),
      ),
    ];
    const { held } = pooled([garden(3), garden(1)]);
    expect(held.value).toBe(0.5);
    expect(held.se).toBeCloseTo(0.25, 12);
  });

  it('put several traits of a garden together as one garden', () => {
    const [a, b, c, d] = gardens(4, 0.6).map(([sums]) => sums!);
    const { gardens: count, ranges } = pooled([
      [a!, b!],
      [c!, d!],
    ]);
    expect([count, ranges]).toEqual([2, 800]);
  });
});

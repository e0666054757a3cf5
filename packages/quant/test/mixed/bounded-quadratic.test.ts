import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/index.ts';
import { maximiseWithin } from '../../src/mixed/bounded-quadratic.ts';

/** A = B B' + a little, b and bounds below zero, drawn from a seed. */
function problem(seed: number, size: number) {
  const random = seededRandom(seed);
  const root = Array.from({ length: size * size }, () => random.normal());
  const a = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      for (let k = 0; k < size; k++) a[i * size + j]! += root[i * size + k]! * root[j * size + k]!;
    }
    a[i * size + i]! += 0.05;
  }
  const b = Float64Array.from({ length: size }, () => random.normal(0, 3));
  const bounds = Float64Array.from({ length: size }, () => -random.uniform());
  return { a, b, bounds };
}

describe('a quadratic maximised within bounds', () => {
  it('meets the conditions of Karush, Kuhn and Tucker, which only the maximum meets', () => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 8 }), (seed, size) => {
        const { a, b, bounds } = problem(seed, size);
        const all = Array.from({ length: size }, (_, i) => i);
        const change = maximiseWithin(a, size, all, b, bounds)!;
        for (const i of all) {
          const slope = b[i]! - all.reduce((sum, k) => sum + a[i * size + k]! * change[k]!, 0);
          expect(change[i]!).toBeGreaterThanOrEqual(bounds[i]!);
          if (change[i]! > bounds[i]!) expect(Math.abs(slope)).toBeLessThan(1e-8);
          else expect(slope).toBeLessThan(1e-8);
        }
      }),
      { seed: 41, numRuns: 400 },
    );
  });

  it('meets them with bounds on both sides', () => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 8 }), (seed, size) => {
        const { a, b, bounds } = problem(seed, size);
        const high = bounds.map((low, i) => (i % 3 === 0 ? Number.POSITIVE_INFINITY : -0.7 * low));
        const all = Array.from({ length: size }, (_, i) => i);
        const change = maximiseWithin(a, size, all, b, bounds, high)!;
        for (const i of all) {
          const slope = b[i]! - all.reduce((sum, k) => sum + a[i * size + k]! * change[k]!, 0);
          expect(change[i]!).toBeGreaterThanOrEqual(bounds[i]!);
          expect(change[i]!).toBeLessThanOrEqual(high[i]!);
          if (change[i]! === bounds[i]!) expect(slope).toBeLessThan(1e-8);
          else if (change[i]! === high[i]!) expect(slope).toBeGreaterThan(-1e-8);
          else expect(Math.abs(slope)).toBeLessThan(1e-8);
        }
      }),
      { seed: 43, numRuns: 400 },
    );
  });

  it('leaves out what is not named, and says when there is no single maximum', () => {
    const singular = Float64Array.of(1, 1, 1, 1);
    const far = Float64Array.of(-9, -9);
    expect(maximiseWithin(singular, 2, [0, 1], Float64Array.of(1, 1), far)).toBeNull();
    expect([...maximiseWithin(singular, 2, [1], Float64Array.of(1, 2), far)!]).toEqual([0, 2]);
  });
});

import { describe, expect, it } from 'vitest';
import { accuracyOf } from '../../src/evaluation/report/shares.ts';

const value = (genet: string, effect: number, se: number) => ({
  genet,
  total: { effect, se, atBest: se, spread: 1 },
  additive: null,
});

describe('the correlation to expect', () => {
  it('is the root of what estimates explain of the spread of true values', () => {
    // By hand: effects −2, 0, 2 have the variance 8/3, errors of 1 add 1: √((8/3)/(11/3)) = √(8/11).
    const values = [value('a', -2, 1), value('b', 0, 1), value('c', 2, 1), value('never noted', 9, 3)];
    expect(accuracyOf(values, new Set(['a', 'b', 'c']))).toBeCloseTo(Math.sqrt(8 / 11), 12);
  });

  it('is 0 where nothing is told, and unknown where nothing varies', () => {
    expect(accuracyOf([value('a', 0, 1), value('b', 0, 1)], new Set(['a', 'b']))).toBe(0);
    expect(accuracyOf([value('a', 0, 0), value('b', 0, 0)], new Set(['a', 'b']))).toBeNull();
  });
});

import type { InformationParts } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { partBars } from '../../src/genet/part-bars.ts';

const parts = (scale: InformationParts['scale'], effects: readonly number[]): InformationParts => ({
  genet: 'g',
  scale,
  effect: effects.reduce((sum, effect) => sum + effect, 0),
  parts: effects.map((effect, index) => ({
    from: (['own notes', 'parents', 'sibs', 'others'] as const)[index]!,
    words: 'words',
    notes: 1,
    effect,
  })),
});

describe('the parts of an estimate as bars', () => {
  test('each begins where the one before ended, and the last ends at the effect', () => {
    const bars = partBars(parts('as noted', [3, -1, 0.5]), 2.5);
    expect(bars.map(({ start, end }) => [start, end])).toEqual([
      [0, 3],
      [3, 2],
      [2, 2.5],
    ]);
  });
  test('on another scale they keep their proportion and sum to the distance in the trait’s own unit', () => {
    const bars = partBars(parts('logarithm', [0.2, -0.05, 0.1]), 7.5);
    expect(bars.reduce((sum, { effect }) => sum + effect, 0)).toBeCloseTo(7.5, 12);
    expect(bars[0]!.effect / bars[2]!.effect).toBeCloseTo(2, 12);
    expect(bars[1]!.effect).toBeLessThan(0);
  });
  test('an estimate that is the average itself gives bars without length rather than endless ones', () => {
    for (const { start, end } of partBars(parts('logarithm', [0.1, -0.1]), 0))
      expect([start, end]).toEqual([0, 0]);
  });
});

import { describe, expect, it } from 'vitest';
import { briefForShare, chanceBins, pooledBins } from '../../src/index.ts';

const values = (...all: number[]) => new Map(all.map((value, i) => [`g${i}`, value]));
const asked = [
  { trait: 'height', wanted: 'more' as const, told: values(1, 2, 3, 5, 4), truths: values(1, 2, 3, 4, 5) },
  { trait: 'lodging', wanted: 'less' as const, told: values(8, 2, 3, 9, 1), truths: values(9, 1, 2, 8, 3) },
];
const brief = briefForShare(asked, 0.6);
const match = (...chances: (number | null)[]) => chances.map((chance, i) => ({ id: `g${i}`, chance }));

describe('chances of a brief held against the truth', () => {
  it('ask for what a share of the genets seems to be, trait by trait', () => {
    const limits = (share: number) =>
      briefForShare(asked, share).limits.map(({ atLeast, atMost }) => [atLeast, atMost]);
    // By hand: the three, the four and the one best of five as told.
    expect(limits(0.6)).toEqual([
      [3, null],
      [null, 3],
    ]);
    expect(limits(0.75)).toEqual([
      [2, null],
      [null, 8],
    ]);
    expect(limits(0)).toEqual([
      [5, null],
      [null, 1],
    ]);
  });

  it('count plants by what they were told', () => {
    // By hand: g2 (3 and 2) and g4 (5 and 3) meet both limits; no chance, no plant.
    const bins = chanceBins(match(0.1, null, 0.7, 0.65, 1), brief, asked);
    expect(bins.map(({ plants, met }) => [plants, met])).toEqual([
      [1, 0],
      [0, 0],
      [0, 0],
      [2, 1],
      [1, 1],
    ]);
    expect(bins[3]!.told).toBeCloseTo(1.35, 12);
  });

  it('are put together by plants, with the error over gardens', () => {
    const bins = pooledBins([
      chanceBins(match(0.7, 0.7, 0.7, 0.7, 0.7), brief, asked),
      chanceBins(match(0.1, 0.1, 0.7, 0.1, 0.1), brief, asked),
    ]);
    expect(bins[3]!.plants).toBe(6);
    expect(bins[3]!.met.value).toBeCloseTo(3 / 6, 12);
    // Jackknife by hand: without the first 1, without the second 2/5; √(½ × ((0.3)² + (0.3)²)) = 0.3.
    expect(bins[3]!.met.se).toBeCloseTo(0.3, 12);
  });
});

import { type BriefLimit, matchBrief } from '@keelrow/breeding/brief';
import type { Scale } from '@keelrow/breeding/evaluation';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { asNoted, logarithm, logOdds, squareRoot } from '../../src/evaluation/scale.ts';
import { brief, evidence, limit } from './evidence.ts';

const first = (wanted: BriefLimit, scale: Scale, mean: number, error: number) =>
  matchBrief(
    brief(wanted),
    evidence([wanted.trait], { A: { mean: [mean], covariance: [error ** 2] } }, { scales: [scale] }),
    seededRandom(1),
  ).plants[0]!;

/** Φ(−1), Φ(−2). Source: Abramowitz & Stegun 1964, table 26.1. */
const [beyondOne, beyondTwo] = [0.15866, 0.02275];

describe('limits on the scale of the sums', () => {
  it('are met with the chance that the transformed value has', () => {
    const log = logarithm('');
    expect(
      first(limit('height', { atLeast: 100 * Math.exp(0.1) }), log, Math.log(100), 0.1).chance,
    ).toBeCloseTo(beyondOne, 5);
    expect(first(limit('spikes', { atMost: 9 }), squareRoot(''), 4, 0.5).chance).toBeCloseTo(beyondTwo, 5);
    // By hand: 75% has odds of 3.
    expect(first(limit('height', { atLeast: 75 }), logOdds('', 0), Math.log(3) - 1, 1).chance).toBeCloseTo(
      beyondOne,
      5,
    );
  });

  it('show ranges back in the trait’s unit, lopsided as they are', () => {
    const [height] = first(limit('height', { atLeast: 120 }), logarithm(''), Math.log(100), 0.1).limits;
    // By hand: 100 times e to ± 1.28155 × 0.1.
    expect(height!.estimate).toBeCloseTo(100, 10);
    expect(height!.low).toBeCloseTo(87.97, 2);
    expect(height!.high).toBeCloseTo(113.67, 2);
  });

  it('leave a side open at the end of the scale, and cannot be met beyond it', () => {
    const scores = asNoted('', [1, 9]);
    const chance = (says: Partial<BriefLimit>, scale = scores, mean = 8.5) =>
      first(limit('lodging', says), scale, mean, 1).chance;
    expect(chance({ atMost: 9 })).toBe(1);
    expect(chance({ atLeast: 1 }, scores, 1.2)).toBe(1);
    expect(chance({ atLeast: 9 })).toBeCloseTo(0.30854, 5);
    expect(chance({ atLeast: 10 })).toBe(0);
    expect(chance({ atMost: 0 })).toBe(0);
    expect(chance({ atLeast: 0 }, squareRoot(''), 0.1)).toBe(1);
    expect(chance({ atMost: 0 }, logarithm(''), 0.1)).toBe(0);
  });
});

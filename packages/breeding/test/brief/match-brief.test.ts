import { type Brief, type BriefEvidence, matchBrief } from '@keelrow/breeding/brief';
import { colourDifference } from '@keelrow/breeding/colour';
import { seededRandom } from '@keelrow/quant';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brief, evidence, independent, limit } from './evidence.ts';

const matched = (wanted: Brief, on: BriefEvidence) => matchBrief(wanted, on, seededRandom('test'));

/** Φ from printed tables. Source: Abramowitz & Stegun 1964, table 26.1. */
const below = { half: 0.69146, one: 0.84134, two: 0.97725 };

describe('chance to meet a brief', () => {
  it('is a printed normal chance for one limit, and the product for independent ones', () => {
    const held = matched(
      brief(limit('height', { atLeast: 100 }), limit('lodging', { atMost: 4 })),
      evidence(['height', 'lodging'], { A: { mean: [110, 3], covariance: independent(10, 2) } }),
    );
    expect(held.plants[0]!.limits[0]!.chance).toBeCloseTo(below.one, 5);
    expect(held.plants[0]!.limits[1]!.chance).toBeCloseTo(below.half, 5);
    expect(held.plants[0]!.chance).toBeCloseTo(below.one * below.half, 4);
    expect(held.plants[0]!.chanceError).toBe(0);
  });

  it('is the chance between two ends, whether one limit or two give them', () => {
    const on = evidence(['height'], { A: { mean: [100], covariance: [100] } });
    const between = matched(brief(limit('height', { atLeast: 90, atMost: 120 })), on).plants[0]!.chance;
    const twice = matched(brief(limit('height', { atLeast: 90 }), limit('height', { atMost: 120 })), on);
    expect(between).toBeCloseTo(below.two - (1 - below.one), 5);
    expect(twice.plants[0]!.chance).toBeCloseTo(between!, 12);
  });

  it('takes the joint errors into account: both above average with correlation ½ has a chance of ⅓', () => {
    // Source: P(X > 0, Y > 0) = ¼ + arcsin ρ / 2π; W. F. Sheppard 1899, Philosophical Transactions A 192:101-167.
    const { chance, chanceError } = matched(
      brief(limit('height', { atLeast: 100 }), limit('spikes', { atLeast: 10 })),
      evidence(['height', 'spikes'], { A: { mean: [100, 10], covariance: [64, 12, 12, 9] } }),
    ).plants[0]!;
    expect(Math.abs(chance! - 1 / 3)).toBeLessThan(chanceError + 1e-12);
    expect(chanceError).toBeLessThan(0.005);
  });

  it('is the mean of the chances at each of the covariances that may be true, of colours too', () => {
    // Source: Abramowitz & Stegun 1964, table 26.1; chances of 1 and 2 standard errors, and of both together.
    const on = evidence(['height', 'lodging', 'banner l', 'banner a', 'banner b'], {
      A: { mean: [110, 3, 50, 0, 0], covariance: independent(10, 2, 1, 1, 1) },
    });
    const at = (mean: number[], covariance: number[]) => ({
      mean: Float64Array.from(mean),
      covariance: Float64Array.from(covariance),
    });
    const each = [
      at([110, 3, 50, 0, 0], independent(10, 2, 1, 1, 1)),
      at([110, 5, 50, 60, 0], independent(5, 2, 1, 1, 1)),
    ];
    const inDoubt = { ...on, joint: { ...on.joint, of: () => ({ ...each[0]!, each }) } };
    const limits = [limit('height', { atLeast: 100 }), limit('lodging', { atMost: 4 })];
    const held = matched(brief(...limits), inDoubt).plants[0]!;
    expect(held.limits[0]!.chance).toBeCloseTo((below.one + below.two) / 2, 4);
    expect(held.chance).toBeCloseTo((below.one * below.half + below.two * (1 - below.half)) / 2, 4);
    // The grey is near in the first half of the draws and far off in the second.
    const grey = limit('banner', { colour: { l: 50, a: 0, b: 0 }, colourWithin: 20 });
    const { chance, chanceError } = matched(brief(grey, ...limits), inDoubt).plants[0]!;
    expect(Math.abs(chance! - (below.one * below.half) / 2)).toBeLessThan(chanceError);
  });

  it('agrees with direct simulation for four limits, a colour among them', () => {
    const root = [
      [12, 0, 0, 0, 0],
      [1.5, 2, 0, 0, 0],
      [3, -1, 5, 0, 0],
      [-2, 1, 2, 6, 0],
      [4, 0.5, -3, 2, 8],
    ];
    const covariance = root.flatMap((a) =>
      root.map((b) => a.reduce((sum, value, k) => sum + value * b[k]!, 0)),
    );
    const mean = [104, 9, 55, 20, -18];
    const colour = { l: 50, a: 22, b: -20 };
    const held = matched(
      brief(
        limit('height', { atLeast: 95, atMost: 130 }),
        limit('spikes', { atLeast: 8 }),
        limit('banner', { colour, colourWithin: 9 }),
      ),
      evidence(['height', 'spikes', 'banner l', 'banner a', 'banner b'], { A: { mean, covariance } }),
    ).plants[0]!;
    // The same draws written out anew with another stream; CIEDE2000 is checked by itself.
    const random = seededRandom('simulation');
    const draws = 60_000;
    let [all, near] = [0, 0];
    for (let draw = 0; draw < draws; draw++) {
      const z = root.map(() => random.normal());
      const x = mean.map((value, i) => value + root[i]!.reduce((sum, share, k) => sum + share * z[k]!, 0));
      const within = colourDifference(colour, { l: x[2]!, a: x[3]!, b: x[4]! }).total <= 9;
      if (within) near += 1;
      if (within && x[0]! >= 95 && x[0]! <= 130 && x[1]! >= 8) all += 1;
    }
    const spread = (p: number) => 4 * Math.sqrt(p * (1 - p) * (1 / 4000 + 1 / draws));
    expect(Math.abs(held.chance! - all / draws)).toBeLessThan(spread(all / draws));
    expect(Math.abs(held.limits[2]!.chance! - near / draws)).toBeLessThan(spread(near / draws));
  });

  it('never falls when a limit is loosened', () => {
    const values = fc.record({
      mean: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 5, maxLength: 5 }),
      correlation: fc.double({ min: -0.9, max: 0.9, noNaN: true }),
      low: fc.double({ min: -3, max: 3, noNaN: true }),
      looser: fc.double({ min: 0, max: 3, noNaN: true }),
      within: fc.double({ min: 1, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(values, ({ mean: [h, s, l, a, b], correlation, low, looser, within }) => {
        const covariance = independent(1, 1, 4, 4, 4);
        covariance[1] = correlation;
        covariance[5] = correlation;
        const on = evidence(['height', 'spikes', 'banner l', 'banner a', 'banner b'], {
          A: { mean: [h!, s!, 50 + l!, a!, b!], covariance },
        });
        const colour = { l: 50, a: 0, b: 0 };
        const of = (least: number, near: number, box: boolean) =>
          matched(
            brief(
              limit('height', { atLeast: least }),
              limit('spikes', { atLeast: 0 }),
              ...(box ? [] : [limit('banner', { colour, colourWithin: near })]),
            ),
            on,
          ).plants[0]!;
        for (const box of [true, false]) {
          const [tight, loose] = [of(low, within, box), of(low - looser, within + looser, box)];
          expect(loose.chance!).toBeGreaterThanOrEqual(
            tight.chance! - (box ? tight.chanceError + loose.chanceError : 0),
          );
        }
      }),
      { seed: 3, numRuns: 25 },
    );
  });

  it('does not depend on the order of limits and lines, nor on units', () => {
    const values = { A: { mean: [104, 9], covariance: [144, 10, 10, 4] } };
    const one = matched(
      brief(limit('height', { atLeast: 100 }), limit('spikes', { atLeast: 8 })),
      evidence(['height', 'spikes'], values),
    ).plants[0]!;
    const other = matched(
      brief(limit('spikes', { atLeast: 8 }), limit('height', { atLeast: 1 })),
      evidence(['spikes', 'height'], { A: { mean: [9, 1.04], covariance: [4, 0.1, 0.1, 0.0144] } }),
    ).plants[0]!;
    expect(Math.abs(other.chance! - one.chance!)).toBeLessThan(one.chanceError + other.chanceError);
    expect(other.limits[1]!.chance).toBeCloseTo(one.limits[0]!.chance!, 10);
  });

  it('gives the same numbers bit for bit on a second run', () => {
    const run = () =>
      matched(
        brief(
          limit('height', { atLeast: 100 }),
          limit('banner', { colour: { l: 50, a: 0, b: 0 }, colourWithin: 5 }),
        ),
        evidence(['height', 'banner l', 'banner a', 'banner b'], {
          A: { mean: [104, 52, 3, 1], covariance: independent(10, 3, 3, 3) },
          B: { mean: [90, 48, 1, 1], covariance: independent(8, 3, 3, 3) },
        }),
      );
    expect(run()).toEqual(run());
  });

  it('ranks by the chance, and says the wishes’ expected share by weight', () => {
    const { plants } = matched(
      brief(
        limit('height', { atLeast: 100 }),
        limit('lodging', { must: false, weight: 3, atMost: 4 }),
        limit('spikes', { must: false, weight: 1, atLeast: 10 }),
      ),
      evidence(['height', 'lodging', 'spikes'], {
        low: { mean: [90, 4, 10], covariance: independent(10, 1, 1) },
        high: { mean: [120, 2, 9], covariance: independent(10, 1, 1) },
      }),
    );
    expect(plants.map(({ code }) => code)).toEqual(['high', 'low']);
    expect(plants[1]!.wishes).toBeCloseTo((3 * 0.5 + 1 * 0.5) / 4, 10);
    expect(plants[0]!.wishes).toBeCloseTo((3 * below.two + 1 * (1 - below.one)) / 4, 4);
  });
});

import { type BriefLimit, matchBrief } from '@keelrow/breeding/brief';
import type { Units } from '@keelrow/breeding/facts';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { brief, evidence, independent, limit } from './evidence.ts';

const noted = { low: 24, high: 180, notes: 2090 };

/** What is said of one limit on a line whose notes go from and to the given values. */
function saidOf(wanted: BriefLimit, reach: typeof noted | null, units: Units = 'metric'): string | null {
  const held = matchBrief(
    brief(wanted),
    evidence(
      [wanted.trait],
      { A: { mean: [5], covariance: [1] } },
      { units, reach: new Map(reach ? [[wanted.trait, reach]] : []) },
    ),
    seededRandom(1),
  );
  return held.limits[0]!.beyond;
}

// The cases follow from what the limits say; the trait `lodging` is scored from 1 to 9, `spikes` from 0 on.
describe('limits beyond what a trait can be', () => {
  const ofScore = (says: Partial<BriefLimit>) => saidOf(limit('lodging', says), null);
  it('are met by all plants, or by none, or ask nothing at one end', () => {
    expect(ofScore({ atMost: 12 })).toBe(
      'Every plant meets “Falling over at most 12”, so it tells none apart: Falling over goes from 1 to 9.',
    );
    expect(ofScore({ atLeast: 12 })).toBe(
      'No plant can meet “Falling over at least 12”: Falling over goes from 1 to 9.',
    );
    expect(ofScore({ atLeast: 5, atMost: 12 })).toMatch(
      /^The upper end of “Falling over 5 to 12” asks nothing/,
    );
    expect(ofScore({ atLeast: 1, atMost: 3 })).toMatch(/^The lower end/);
    expect(saidOf(limit('spikes', { atLeast: 0 }), null)).toMatch(/goes no lower than 0\.$/);
  });

  it('are not mistaken for those that tell plants apart', () => {
    for (const says of [{ atMost: 3 }, { atLeast: 9 }, { atMost: 1 }, { atLeast: 2, atMost: 8 }])
      expect(ofScore(says)).toBeNull();
    expect(saidOf(limit('height', { atLeast: 99999 }), null)).toBeNull();
  });
});

describe('limits beyond all that was noted', () => {
  it('are told with what the notes go from and to, in the units of the programme', () => {
    expect(saidOf(limit('height', { atLeast: 99999 }), noted)).toBe(
      'No plant was ever noted so: “Height at least 99999 cm”, while the 2,090 notes of Height go from 24 cm to 180 cm. Is it a slip?',
    );
    expect(saidOf(limit('height', { atMost: 200 }), noted)).toMatch(
      /^Every plant was noted so: “Height at most 200 cm”/,
    );
    // 1 in = 2.54 cm exactly (NIST Special Publication 811, appendix B.8).
    expect(saidOf(limit('height', { atLeast: 254 }), { low: 25.4, high: 127, notes: 3 }, 'us')).toMatch(
      /“Height at least 100 in”, while the 3 notes of Height go from 10 in to 50 in/,
    );
    expect(saidOf(limit('ripe-pods', { atMost: 60 }), { low: 200, high: 240, notes: 9 })).toMatch(
      /not after 1 Mar”, while the 9 notes of Ripe pods go from 19 Jul to 28 Aug/,
    );
    expect(saidOf(limit('height', { atLeast: 100 }), noted)).toBeNull();
  });

  it('come before what is said of an end', () => {
    expect(saidOf(limit('lodging', { atLeast: 8, atMost: 12 }), { low: 1, high: 6, notes: 9 })).toMatch(
      /^No plant was ever noted so/,
    );
  });

  it('in weeks of flowering are met by all only if both the first and the last day are', () => {
    const weeks = (fromWeek: number, toWeek: number) =>
      matchBrief(
        brief(limit('first-flower', { fromWeek, toWeek })),
        evidence(
          ['first-flower', 'end-of-flower'],
          { A: { mean: [150, 180], covariance: independent(4, 4) } },
          {
            reach: new Map([
              ['first-flower', { low: 140, high: 160, notes: 9 }],
              ['end-of-flower', { low: 170, high: 190, notes: 9 }],
            ]),
          },
        ),
        seededRandom(1),
      ).limits[0]!.beyond;
    // Week 24 ends on day 168; week 20 begins on day 134, week 26 on day 176, week 30 on day 204.
    expect(weeks(20, 24)).toMatch(/^Every plant was noted so/);
    expect(weeks(26, 27)).toBeNull();
    expect(weeks(30, 31)).toMatch(/^No plant was ever noted so: “In flower in weeks 30 to 31/);
  });
});

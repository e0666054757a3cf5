import { BriefError, type BriefLimit, matchBrief, requirementOf } from '@keelrow/breeding/brief';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { brief, evidence, independent, limit, traits } from './evidence.ts';

const only = (wanted: BriefLimit[], ...on: Parameters<typeof evidence>) =>
  matchBrief(brief(...wanted), evidence(...on), seededRandom(1));
const inTheWay = (...args: Parameters<typeof only>) => only(...args).plants[0]!.inTheWay;

describe('what stands in the way', () => {
  it('is the must with the lowest chance, with the likely value, its range and what was wanted', () => {
    const held = only(
      [limit('height', { atLeast: 100 }), limit('spikes', { atLeast: 12 })],
      ['height', 'spikes'],
      { A: { mean: [84, 13], covariance: independent(11.3, 2) } },
    ).plants[0]!;
    expect(held.inTheWay).toBe('Height too small: about 84 cm (70 to 98), wanted at least 100 cm');
    expect(held.limits.map((one) => one.inTheWay)).toEqual([true, false]);
    expect(held.limits[0]).toMatchObject({
      estimate: 84,
      words: 'about 84 cm (70 to 98), wanted at least 100 cm',
    });
  });

  it('speaks of numbers, counts, scores and dates in their own words', () => {
    const one = (wanted: BriefLimit, mean: number, error: number) =>
      inTheWay([wanted], [wanted.trait], { A: { mean: [mean], covariance: [error ** 2] } });
    expect(one(limit('spikes', { atLeast: 12 }), 7, 1)).toBe(
      'Spikes too few: about 7.0 (5.7 to 8.3), wanted at least 12',
    );
    expect(one(limit('lodging', { atMost: 3.5 }), 6, 0.5)).toBe(
      'Falling over too high: about 6.0 (5.4 to 6.6), wanted at most 3.5',
    );
    expect(one(limit('ripe-pods', { atMost: 220 }), 230, 4)).toBe(
      'Ripe pods too late: about 18 Aug (13 Aug to 23 Aug), wanted not after 8 Aug',
    );
  });

  it('speaks feet, inches and °F where the programme does', () => {
    // source: 1 in = 2.54 cm exactly (NIST Special Publication 811, appendix B.8); 32 °F at 0 °C, 1.8 °F to 1 °C.
    const us = (wanted: BriefLimit[], mean: number[], error: number, unit = 'cm') =>
      only(
        wanted,
        ['height'],
        { A: { mean, covariance: [error ** 2] } },
        {
          units: 'us',
          traits: traits.map((trait) => (trait.code === 'height' ? { ...trait, unit } : trait)),
        },
      );
    const tall = us([limit('height', { atLeast: 100 })], [84], 11.3);
    expect(tall.limits[0]!.words).toBe('Height at least 39.37 in');
    expect(tall.plants[0]!.inTheWay).toBe(
      'Height too small: about 33 in (27 to 39), wanted at least 39.37 in',
    );
    // The figures stay in the trait's own unit.
    expect(tall.plants[0]!.limits[0]).toMatchObject({ estimate: 84 });
    expect(us([limit('height', { atMost: 0.762 })], [0.9], 0.1, 'm').plants[0]!.inTheWay).toBe(
      'Height too large: about 3.0 ft (2.5 to 3.4), wanted at most 2.5 ft',
    );
    expect(us([limit('height', { atLeast: -20 })], [-25], 5, '°C').plants[0]!.inTheWay).toBe(
      'Height too small: about −13 °F (−25 to −1), wanted at least −4 °F',
    );
    expect(() => us([limit('height', { atLeast: 100 }), limit('height', { atMost: 50.8 })], [84], 5)).toThrow(
      /at least 39.37 in and at most 20 in/,
    );
  });

  it('says uncertain where the likely value is right but the doubt is wide, and asks for a note where there is none', () => {
    expect(
      inTheWay([limit('height', { atLeast: 100 })], ['height'], { A: { mean: [104], covariance: [225] } }),
    ).toBe('Height uncertain: about 104 cm (85 to 123), wanted at least 100 cm');
    expect(
      inTheWay([limit('height', { atLeast: 100 })], ['height'], {
        A: { mean: [95], covariance: [225], notes: 0 },
      }),
    ).toBe('Height not noted: about 95 cm (76 to 114), wanted at least 100 cm; a note of it would tell more');
  });

  it('is empty where each must is likely', () => {
    expect(
      inTheWay([limit('height', { atLeast: 100 })], ['height'], { A: { mean: [130], covariance: [25] } }),
    ).toBe('');
  });

  it('tells of a colour how far it is and in which way', () => {
    const wanted = limit('banner', { colour: { l: 42, a: 6, b: -14 }, colourWithin: 6 });
    const of = (l: number, a: number, b: number) =>
      inTheWay([wanted], ['banner l', 'banner a', 'banner b'], {
        A: { mean: [l, a, b], covariance: independent(1, 1, 1) },
      });
    expect(of(70, 6, -14)).toMatch(
      /^Banner too light: about 2\d from it \(2\d to 2\d\), wanted within 6 of the colour L 42 6 −14$/,
    );
    expect(of(20, 6, -14)).toMatch(/^Banner too dark/);
    expect(of(42, 20, -46)).toMatch(/^Banner too strong/);
    expect(of(42, 12, 12)).toMatch(/^Banner of another hue/);
  });
});

describe('in flower in these weeks', () => {
  const weeks = limit('first-flower', { fromWeek: 22, toWeek: 24 });

  it('asks for first flower by the last day and end of flower from the first day on', () => {
    // Source: ISO 8601 weeks of an average year: week 22 begins with day 148, week 24 ends with day 168.
    expect(requirementOf(weeks, traits)).toMatchObject({
      intervals: [
        { line: { trait: 'first-flower' }, high: 168 },
        { line: { trait: 'end-of-flower' }, low: 148 },
      ],
    });
  });

  it('is met by a genet that begins before and ends within, missed by one that is over or yet to come', () => {
    const { plants, limits } = only([weeks], ['first-flower', 'end-of-flower'], {
      within: { mean: [140, 155], covariance: independent(2, 2) },
      over: { mean: [125, 140], covariance: independent(2, 2) },
      coming: { mean: [180, 200], covariance: independent(2, 2) },
    });
    expect(limits[0]!.words).toBe('In flower in weeks 22 to 24 (28 May to 17 Jun)');
    expect(plants[0]!.code).toBe('within');
    expect(plants[0]!.chance).toBeGreaterThan(0.99);
    const words = Object.fromEntries(plants.map((plant) => [plant.code, plant.inTheWay]));
    expect(words.over).toBe(
      'Flowering too early: in flower about 5 May to 20 May, wanted in weeks 22 to 24 (28 May to 17 Jun)',
    );
    expect(words.coming).toMatch(/^Flowering too late/);
  });

  it('takes full flower where no end is noted, and the date of a stage that is not of flowering', () => {
    const without = traits.map((trait) => (trait.code === 'end-of-flower' ? { ...trait, notes: 0 } : trait));
    const full = { code: 'full-flower', name: 'Full flower', sort: 'staged' as const, bbch: 65, notes: 9 };
    expect(requirementOf(weeks, [...without, full])).toMatchObject({
      intervals: [{ line: { trait: 'first-flower' } }, { line: { trait: 'full-flower' }, low: 148 }],
    });
    expect(requirementOf(weeks, without)).toMatchObject({
      intervals: [{ line: { trait: 'first-flower' }, low: 148, high: 168 }],
    });
    expect(requirementOf(limit('ripe-pods', { fromWeek: 30, toWeek: 32 }), traits)).toMatchObject({
      intervals: [{ line: { trait: 'ripe-pods' }, low: 204, high: 224 }],
    });
  });

  it('counts weeks as the calendar does on average over its 400 years', () => {
    // Source: ISO 8601: week 1 holds 4 January and begins on Monday; reckoned from the definition.
    let sum = 0;
    for (let year = 2000; year < 2400; year++) {
      const fourth = Date.UTC(year, 0, 4);
      const monday = fourth - ((new Date(fourth).getUTCDay() + 6) % 7) * 86_400_000;
      sum += (monday - Date.UTC(year, 0, 1)) / 86_400_000 + 1;
    }
    expect(Math.abs(sum / 400 - 1)).toBeLessThan(0.1);
  });
});

describe('limits that cannot be told or met', () => {
  const on: Parameters<typeof evidence> = [['height'], { A: { mean: [104], covariance: [100] } }];

  it('leaves out a must on a trait without notes, and says so with the note that would settle it', () => {
    const { plants, heed, limits } = only(
      [limit('height', { atLeast: 100 }), limit('spikes', { atLeast: 3 })],
      ...on,
    );
    expect(limits[1]!.unknown).toContain('no notes of Spikes yet');
    expect(plants[0]!.limits[1]).toMatchObject({ chance: null, words: 'not known, wanted at least 3' });
    expect(plants[0]!.chance).toBe(plants[0]!.limits[0]!.chance);
    expect(heed[0]).toMatch(
      /^A must that is not counted in the chance: Spikes at least 3\. There are no notes/,
    );
  });

  it('gives no chance where nothing can be told of any must, nor where there is no must', () => {
    expect(only([limit('spikes', { atLeast: 3 })], ...on).plants[0]!.chance).toBeNull();
    const wished = only([limit('height', { atLeast: 100, must: false })], ...on);
    expect(wished.plants[0]).toMatchObject({ chance: null, inTheWay: '' });
    expect(wished.plants[0]!.wishes).toBeCloseTo(0.6554, 4);
    expect(wished.heed[0]).toContain('has no must');
  });

  it.each<[string, BriefLimit[], RegExp]>([
    ['no limits', [], /has no limits yet/],
    ['a limit that says nothing', [limit('height', {})], /Height: this limit says nothing/],
    [
      'ends exchanged',
      [limit('height', { atLeast: 9, atMost: 3 })],
      /at least 9 cm and at most 3 cm cannot both hold/,
    ],
    [
      'two musts against each other',
      [limit('height', { atLeast: 100 }), limit('height', { atMost: 80 })],
      /Height: two musts ask for at least 100 cm and at most 80 cm/,
    ],
    [
      'classes against each other',
      [limit('habit', { classes: ['bare'] }), limit('habit', { classes: ['leafy'] })],
      /exclude each other/,
    ],
    [
      'a class that is none',
      [limit('habit', { classes: ['tall'] })],
      /“tall” is not a class of it; the classes are bare/,
    ],
    [
      'a class with a number',
      [limit('habit', { atLeast: 2 })],
      /say which classes are wanted, of bare, half, leafy/,
    ],
    ['a colour without a difference', [limit('banner', { colour: { l: 1, a: 1, b: 1 } })], /colour_within/],
    ['a colour as a number', [limit('banner', { atLeast: 2 })], /a colour is wanted as CIELAB/],
    ['weeks of a number', [limit('height', { fromWeek: 2 })], /it is a number, not a date/],
    [
      'weeks exchanged',
      [limit('ripe-pods', { fromWeek: 30, toWeek: 20 })],
      /run from 30 to 20; are the two exchanged/,
    ],
    ['spoken notes', [limit('memo', { atLeast: 1 })], /cannot be held against a limit/],
    [
      'classes of a number',
      [limit('height', { atLeast: 1, classes: ['x'] })],
      /it has no classes or colours/,
    ],
  ])('refuses %s', (_, limits, words) => {
    expect(() => only(limits, ...on)).toThrow(BriefError);
    expect(() => only(limits, ...on)).toThrow(words);
  });
});

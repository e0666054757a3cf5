import type { TraitShown } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { beyondInForm } from '../../src/briefs/limit-beyond.ts';
import { emptyLimit, type LimitTyped, readLimit, typedOf } from '../../src/briefs/limit-typed.ts';
import { limitInWords, weeksInWords } from '../../src/briefs/limit-words.ts';
import { inOrder, type Limit, limitOf } from '../../src/briefs/limits.ts';

const trait = (given: Partial<TraitShown>): TraitShown => ({
  id: 't',
  code: 'height',
  name: 'Height',
  sort: 'measured',
  unit: 'cm',
  least: null,
  most: null,
  classes: [],
  wanted: null,
  how: null,
  notes: 9,
  notesElsewhere: [],
  estimable: true,
  ...given,
});
const height = trait({});
const firstFlower = trait({ code: 'first-flower', sort: 'staged', unit: null });
const habit = trait({ code: 'habit', sort: 'classed', unit: null, classes: ['bare', 'half', 'leafy'] });
const banner = trait({ code: 'banner', sort: 'coloured', unit: null });
const typed = (given: Partial<LimitTyped>): LimitTyped => ({ ...emptyLimit, ...given });
const stored = (given: LimitTyped, of: TraitShown, units: 'metric' | 'us' = 'metric'): Limit =>
  limitOf({ id: 'x', brief: 'b', ...readLimit(given, of, units).row });
const boxes = (given: Partial<LimitTyped>, of: TraitShown): string[] =>
  readLimit(typed(given), of, 'metric').problems.map(({ box }) => box);

describe('a limit as it is typed', () => {
  test('inches are stored as centimetres and shown as inches again', () => {
    // source: 1 in = 2.54 cm exactly (NIST Special Publication 811, appendix B.8).
    const limit = stored(typed({ atLeast: '40' }), height, 'us');
    expect(limit.atLeast).toBeCloseTo(101.6, 9);
    expect(typedOf(limit, height, 'us').atLeast).toBe('40');
    expect(limitInWords(limit, height, 'us')).toBe('at least 40 in');
    expect(limitInWords(limit, height, 'metric')).toBe('at least 101.6 cm');
  });
  test('days are typed as days and stored as days of a year without a leap day', () => {
    const limit = stored(typed({ atLeast: '20 May', atMost: '6-30' }), firstFlower);
    // source: day numbers of a common year, any calendar: 20 May is day 140, 30 June day 181.
    expect([limit.atLeast, limit.atMost]).toEqual([140, 181]);
    expect(typedOf(limit, firstFlower, 'metric')).toMatchObject({ atLeast: '20 May', atMost: '30 Jun' });
    expect(limitInWords(limit, firstFlower, 'metric')).toBe('between 20 May and 30 Jun');
  });
  test('classes keep the order of the trait, colours and weeks come back as they were', () => {
    expect(stored(typed({ classes: ['leafy', 'bare'] }), habit).classes).toEqual(['bare', 'leafy']);
    const colour = stored(typed({ colour: '45 5 -22', colourWithin: '8' }), banner);
    expect(typedOf(colour, banner, 'metric')).toMatchObject({ colour: '45 5 -22', colourWithin: '8' });
    const weeks = stored(typed({ fromWeek: '22', toWeek: '26' }), firstFlower);
    expect(typedOf(weeks, firstFlower, 'metric')).toMatchObject({ fromWeek: '22', toWeek: '26' });
  });
  test('a trait changed to another sort keeps nothing of what was asked before', () => {
    const { row } = readLimit(typed({ classes: ['bare'], atLeast: '5', fromWeek: '22' }), habit, 'metric');
    expect(row).toMatchObject({ at_least: null, from_week: null, classes: ['bare'] });
  });
  test('a limit beyond the scale is told while it is typed, in the units of the programme', () => {
    const said = (given: Partial<LimitTyped>, of: TraitShown, units: 'metric' | 'us' = 'metric') =>
      beyondInForm(readLimit(typed(given), of, units).row, of, units);
    const mildew = trait({ code: 'mildew', name: 'Mildew', sort: 'scored', unit: null, least: 1, most: 9 });
    expect(said({ atMost: '12' }, mildew)).toBe(
      'Every plant meets “Mildew at most 12”, so it tells none apart: Mildew goes from 1 to 9.',
    );
    expect(said({ atMost: '3' }, mildew)).toBeNull();
    expect(said({ atMost: '99999' }, height)).toBeNull();
    // source: 1 in = 2.54 cm exactly (NIST Special Publication 811, appendix B.8).
    expect(said({ atLeast: '200' }, trait({ least: 0, most: 254 }), 'us')).toMatch(
      /^No plant can meet “Height at least 200 in”: Height goes from 0 in to 100 in\.$/,
    );
    expect(said({ classes: ['bare'] }, habit)).toBeNull();
  });
  test('a must has no weight, a wish has one above 0', () => {
    expect(stored(typed({ atLeast: '5' }), height)).toMatchObject({ must: true, weight: null });
    expect(stored(typed({ atLeast: '5', must: false, weight: '2,5' }), height).weight).toBe(2.5);
    expect(boxes({ atLeast: '5', must: false, weight: '0' }, height)).toEqual(['weight']);
  });
  test('what is wrong is told by its box', () => {
    expect(readLimit(emptyLimit, undefined, 'metric').problems.map(({ box }) => box)).toEqual(['trait']);
    expect(boxes({}, height)).toEqual(['atLeast']);
    expect(boxes({ atLeast: 'tall' }, height)).toEqual(['atLeast']);
    expect(boxes({ atLeast: '9', atMost: '3' }, height)).toEqual(['atMost']);
    expect(boxes({ atLeast: '14' }, firstFlower)).toEqual(['atLeast']);
    expect(boxes({ atLeast: 'today' }, firstFlower)).toEqual(['atLeast']);
    expect(boxes({ fromWeek: '54' }, firstFlower)).toEqual(['fromWeek']);
    expect(boxes({ fromWeek: '26', toWeek: '22' }, firstFlower)).toEqual(['toWeek']);
    expect(boxes({}, habit)).toEqual(['classes']);
    expect(boxes({ colour: 'blue', colourWithin: '0' }, banner)).toEqual(['colour', 'colourWithin']);
  });
});

test('musts come first, then wishes by their weight', () => {
  const of = (id: string, must: boolean, weight: number | null): Limit =>
    limitOf({ id, brief: 'b', trait: 't', must, weight });
  const order = inOrder([of('a', false, 1), of('b', false, 3), of('c', true, null)]);
  expect(order.map(({ id }) => id)).toEqual(['c', 'b', 'a']);
});

describe('weeks in words', () => {
  test('name their days', () => {
    expect(weeksInWords({ fromWeek: 22, toWeek: 26 })).toBe('in weeks 22 to 26 (28 May to 1 Jul)');
    expect(weeksInWords({ fromWeek: 22, toWeek: null })).toBe('from week 22 on (28 May)');
    expect(weeksInWords({ fromWeek: null, toWeek: 1 })).toBe('up to week 1 (7 Jan)');
    expect(weeksInWords({ fromWeek: null, toWeek: null })).toBe('');
  });
  test('within half a day of where the weeks of ISO 8601 lie on average over 400 years', () => {
    // source: ISO 8601: week 1 holds the year's first Thursday. 400 years of the Gregorian calendar, by Date in UTC.
    const day = 86_400_000;
    let sum = 0;
    for (let year = 2000; year < 2400; year++) {
      const fourth = new Date(Date.UTC(year, 0, 4));
      const monday = fourth.getTime() - ((fourth.getUTCDay() + 6) % 7) * day;
      sum += (monday - Date.UTC(year, 0, 1)) / day + 1;
    }
    expect(Math.abs(sum / 400 - 1)).toBeLessThan(0.5);
  });
});

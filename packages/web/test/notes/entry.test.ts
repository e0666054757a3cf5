import type { TraitShown } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { readEntry, showBefore, showEntry } from '../../src/notes/entry.ts';
import { readDay } from '../../src/notes/read-day.ts';

const trait = (given: Partial<TraitShown>): TraitShown => ({
  id: 't',
  code: 't',
  name: 'Spike length',
  sort: 'measured',
  unit: 'cm',
  least: 5,
  most: 90,
  classes: [],
  wanted: null,
  how: null,
  notes: 0,
  notesElsewhere: [],
  estimable: true,
  ...given,
});
const setting = { on: '2031-05-20', today: '2031-05-22', units: 'metric' } as const;
const seen = (value: unknown) => ({ state: 'seen', value });

describe('what is typed into a box', () => {
  test('numbers with point or comma; an empty box says nothing', () => {
    expect(readEntry(trait({}), '41,5', setting)).toEqual(seen(41.5));
    expect(readEntry(trait({}), ' 41.5 ', setting)).toEqual(seen(41.5));
    expect(readEntry(trait({}), '', setting)).toBeNull();
  });
  test('inches are stored as centimetres, and limits are told in inches', () => {
    const us = { ...setting, units: 'us' } as const;
    expect(readEntry(trait({}), '10', us)).toEqual(seen(25.4));
    expect(readEntry(trait({}), '40', us)).toMatchObject({ problem: expect.stringContaining('35.43') });
    expect(showEntry(trait({}), { state: 'seen', value: 25.4 }, 'us')).toBe('10');
  });
  test('a value outside the limits is told, not taken', () => {
    expect(readEntry(trait({}), '415', setting)).toMatchObject({ problem: expect.stringContaining('90 cm') });
    expect(readEntry(trait({}), 'long', setting)).toMatchObject({
      problem: expect.stringContaining('number'),
    });
  });
  test('a count is whole', () => {
    expect(readEntry(trait({ sort: 'counted', unit: null }), '6.5', setting)).toHaveProperty('problem');
  });
  test('letters are states where values are numbers, and values where they are words', () => {
    expect(readEntry(trait({}), 'n', setting)).toEqual({ state: 'not yet', value: null });
    expect(readEntry(trait({}), 'D', setting)).toEqual({ state: 'dead', value: null });
    const classed = trait({ sort: 'classed', classes: ['bare', 'dense'], unit: null });
    expect(readEntry(classed, 'd', setting)).toEqual(seen('dense'));
    expect(readEntry(classed, 'not yet', setting)).toEqual({ state: 'not yet', value: null });
    expect(readEntry(trait({ sort: 'written', unit: null }), 'm', setting)).toEqual(seen('m'));
  });
  test('classes by name, number or a beginning that only one has', () => {
    const classed = trait({
      sort: 'classed',
      classes: ['leafy half way', 'leafy to the ground', 'bare'],
      unit: null,
    });
    expect(readEntry(classed, 'BARE', setting)).toEqual(seen('bare'));
    expect(readEntry(classed, '2', setting)).toEqual(seen('leafy to the ground'));
    expect(readEntry(classed, 'leafy', setting)).toHaveProperty('problem');
  });
  test('a day that lies ahead is told', () => {
    const staged = trait({ sort: 'staged', unit: null });
    expect(readEntry(staged, '2031-05-22', setting)).toEqual(seen('2031-05-22'));
    expect(readEntry(staged, '2031-05-23', setting)).toMatchObject({
      problem: expect.stringContaining('ahead'),
    });
  });
  test('colours by their three numbers', () => {
    expect(readEntry(trait({ sort: 'coloured', unit: null }), '45 5 -22', setting)).toEqual(
      seen({ l: 45, a: 5, b: -22 }),
    );
  });
  test('the value of an earlier year is shown as this grid writes it', () => {
    expect(showBefore(trait({}), '27 cm', 'metric')).toBe('27');
    expect(showBefore(trait({}), '25.4 cm', 'us')).toBe('10');
    expect(showBefore(trait({ sort: 'staged' }), '2030-06-03', 'metric')).toBe('3 Jun');
    expect(showBefore(trait({}), 'dead', 'metric')).toBe('dead');
  });
});

describe('days as people type them', () => {
  test.each([
    ['today', '2031-05-20'],
    ['yesterday', '2031-05-19'],
    ['14', '2031-05-14'],
    ['20', '2031-05-20'],
    ['21', '2031-04-21'],
    ['31', '2031-03-31'],
    ['14 May', '2031-05-14'],
    ['May 14', '2031-05-14'],
    ['3. april', '2031-04-03'],
    ['5-14', '2031-05-14'],
    ['2030-12-31', '2030-12-31'],
  ])('%s is %s', (text, day) => expect(readDay(text, '2031-05-20')).toBe(day));
  test.each(['', '0', '32', '30 Feb', '13-1', '14 mai x', 'soon'])('“%s” is no day', (text) =>
    expect(readDay(text, '2031-05-20')).toBeNull(),
  );
});

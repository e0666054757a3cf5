import type { PairCompared } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { bestWanted, readBest } from '../../src/compare/best-typed.ts';
import { chanceShown, eightyPercent, pairSentence } from '../../src/compare/pair-words.ts';
import { numberLine } from '../../src/compare/scale.ts';
import { traitWriting } from '../../src/compare/trait-shown.ts';

const pair = (chanceAMore: number): PairCompared => ({
  a: 'A',
  b: 'B',
  unit: 'cm',
  difference: 3,
  se: 2,
  seInDoubt: 2,
  low: 0.4,
  high: 5.6,
  chanceAMore,
  withMoreYears: [],
  withMorePlants: [],
});
const names = { a: 'Slate Heron', b: 'Weir Song', trait: 'Spike length', wanted: 'more', isDay: false };

describe('a pair in words', () => {
  test('the range of 80% reaches 1.2816 standard errors to either side', () => {
    // source: 90% point of the standard normal distribution, any table: 1.2816.
    expect(eightyPercent).toBe(1.2816);
  });
  test('the more likely one is named first, whichever of the two it is', () => {
    expect(pairSentence(pair(0.93), names)).toBe(
      'It is very likely that Slate Heron truly has more spike length than Weir Song: the chance is 93%.',
    );
    expect(pairSentence(pair(0.07), names)).toMatch(/^It is very likely that Weir Song .* than Slate Heron/);
  });
  test('where less is wanted the smaller one leads', () => {
    expect(pairSentence(pair(0.2), { ...names, trait: 'Leaf spot', wanted: 'less' })).toBe(
      'It is likely that Slate Heron truly has less leaf spot than Weir Song: the chance is 80%.',
    );
  });
  test('days are earlier or later', () => {
    expect(pairSentence(pair(0.8), { ...names, trait: 'First flower', wanted: null, isDay: true })).toMatch(
      /is later in first flower/,
    );
  });
  test('near even odds nobody is called better', () => {
    expect(pairSentence(pair(0.52), names)).toMatch(/^The notes cannot tell yet which/);
  });
  test('no chance is told as certain', () => {
    expect(chanceShown(0.9999)).toBe('more than 99%');
    expect(chanceShown(0.00001)).toBe('less than 1%');
  });
});

test('how many best is a whole number, of fewer than all', () => {
  expect(['10', ' 3 ', '2.5', '0', '-1', 'ten', '', '33', '34'].map((typed) => readBest(typed, 33))).toEqual([
    10,
    3,
    null,
    null,
    null,
    null,
    null,
    33,
    null,
  ]);
  expect(bestWanted(1554)).toMatch(/^Write a whole number from 1 to 1,554/);
});

describe('the number line', () => {
  test('all values lie on it and ticks are round', () => {
    const line = numberLine([16.3, 40.2], 8);
    expect(line.at(16.3)).toBeGreaterThan(0);
    expect(line.at(40.2)).toBeLessThan(1);
    expect(line.ticks).toEqual([20, 25, 30, 35, 40]);
    expect(numberLine([16.3, 40.2], 13).ticks).toEqual([16, 18, 20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40]);
  });
  test('has no more ticks than there is room for, and not too few', () => {
    for (const [low, high] of [
      [-8.5, 11.1],
      [0, 19.9],
      [0, 0.0999],
      [-1234, 4321],
      [0.981, 0.999],
      [99.5, 100.5],
    ] as const) {
      const { ticks } = numberLine([low, high], 5);
      expect(ticks.length).toBeGreaterThanOrEqual(2);
      expect(ticks.length).toBeLessThanOrEqual(5);
    }
  });
  test('a single value stands in the middle', () => {
    expect(numberLine([7, 7], 5).at(7)).toBe(0.5);
  });
});

describe('estimates as they are written', () => {
  test('with two figures of their standard error, in the units of the programme', () => {
    expect(traitWriting({ sort: 'measured', unit: 'cm' }, 'metric').value(38.6321, 1.62)).toBe('38.6');
    expect(traitWriting({ sort: 'measured', unit: 'cm' }, 'us').value(25.4, 2.54)).toBe('10.0');
  });
  test('a difference of temperatures has no freezing point in it', () => {
    expect(traitWriting({ sort: 'measured', unit: '°C' }, 'us').difference(10, 5)).toBe('18.0 °F');
  });
  test('a day of the year as a day', () => {
    expect(traitWriting({ sort: 'staged', unit: null }, 'metric').value(140.4, 2)).toBe('20 May');
  });
});

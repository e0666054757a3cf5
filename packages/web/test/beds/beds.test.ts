import type { TraitShown } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import {
  boundsOf,
  cornersOf,
  type MeasuredBed,
  roundLength,
  usualDistance,
} from '../../src/beds/geometry.ts';
import { valueSteps } from '../../src/beds/value-steps.ts';

const bed = (given: Partial<MeasuredBed>): MeasuredBed => ({
  id: 'b',
  code: 'b',
  name: null,
  site: null,
  eastM: 2,
  northM: 3,
  lengthM: 10,
  widthM: 4,
  turned: 0,
  light: null,
  moisture: null,
  soil: null,
  plants: 0,
  ...given,
});

describe('a bed on the plan', () => {
  test('its corners run along its length first, then across it, north being up', () => {
    expect(cornersOf(bed({}))).toEqual([
      { east: 2, north: 3 },
      { east: 12, north: 3 },
      { east: 12, north: 7 },
      { east: 2, north: 7 },
    ]);
  });
  test('turned by 90° counter-clockwise its length runs north and its width west', () => {
    const [, along, , across] = cornersOf(bed({ turned: 90 }));
    expect(along!.east).toBeCloseTo(2, 9);
    expect(along!.north).toBeCloseTo(13, 9);
    expect(across!.east).toBeCloseTo(-2, 9);
    expect(across!.north).toBeCloseTo(3, 9);
  });
  test('turning changes neither its size nor its first corner', () => {
    const [a, b, c] = cornersOf(bed({ turned: 37 })) as [Pt, Pt, Pt];
    expect(Math.hypot(b.east - a.east, b.north - a.north)).toBeCloseTo(10, 9);
    expect(Math.hypot(c.east - b.east, c.north - b.north)).toBeCloseTo(4, 9);
    expect(a).toEqual({ east: 2, north: 3 });
  });
  test('the frame holds all with its margin', () => {
    expect(boundsOf(cornersOf(bed({})), 1)).toEqual({ west: 1, south: 2, east: 13, north: 8 });
  });
});
type Pt = { east: number; north: number };

test('a scale bar has a round length that fits', () => {
  expect([0.7, 1, 1.9, 4.2, 7, 14, 49, 51].map(roundLength)).toEqual([0.5, 1, 1, 2, 5, 10, 20, 50]);
});

test('the usual distance is that of close neighbours, not of a lone plant far off', () => {
  const spots = [0, 1, 2, 3, 4, 50].map((east) => ({ east, north: 0 }));
  expect(usualDistance(spots)).toBe(1);
  expect(usualDistance([{ east: 0, north: 0 }])).toBeNull();
});

const trait = (given: Partial<TraitShown>): TraitShown => ({
  id: 't',
  code: 't',
  name: 'T',
  sort: 'measured',
  unit: 'cm',
  least: null,
  most: null,
  classes: [],
  wanted: null,
  how: null,
  notes: 0,
  notesElsewhere: [],
  estimable: true,
  ...given,
});

describe('values in steps', () => {
  test('round limits of equal width; each value in the step whose words hold it', () => {
    const steps = valueSteps(trait({}), [26, 31, 44, 49], 'metric');
    expect(steps.steps.map(({ words }) => words)).toEqual([
      '25 to below 30 cm',
      '30 to below 35 cm',
      '35 to below 40 cm',
      '40 to below 45 cm',
      '45 to below 50 cm',
    ]);
    expect([26, 30, 44, 49].map((value) => steps.stepOf(value)?.number)).toEqual([1, 2, 4, 5]);
    expect(steps.stepOf(null)).toBeNull();
  });
  test('few steps still reach from the palette’s light end to its dark end', () => {
    const { steps } = valueSteps(trait({}), [26, 31, 44, 49], 'metric');
    expect([steps[0]!.colour, steps.at(-1)!.colour]).toEqual([1, 7]);
  });
  test('never more than seven, and every value has one', () => {
    const values = Array.from({ length: 60 }, (_, index) => 3 + index * 1.7);
    const steps = valueSteps(trait({}), values, 'metric');
    expect(steps.steps.length).toBeLessThanOrEqual(7);
    for (const value of values) expect(steps.stepOf(value)).not.toBeNull();
  });
  test('classes keep their order, dates are steps of days', () => {
    const classed = valueSteps(
      trait({ sort: 'classed', unit: null, classes: ['bare', 'half', 'full'] }),
      ['full'],
      'metric',
    );
    expect(classed.steps.map(({ words }) => words)).toEqual(['bare', 'half', 'full']);
    const dated = valueSteps(trait({ sort: 'staged', unit: null }), ['2031-05-01', '2031-05-30'], 'metric');
    expect(dated.stepOf('2031-05-01')?.number).toBe(1);
    expect(dated.steps[0]!.words).toMatch(/^\d+ (Apr|May) to /);
  });
  test('one value alone gives one step', () => {
    expect(valueSteps(trait({}), [12, 12], 'metric').steps).toHaveLength(1);
  });
});

import { describe, expect, it } from 'vitest';
import { type AnyRow, type KindName, rowProblems } from '../../src/facts/index.ts';

const problems = (kind: KindName, row: AnyRow) =>
  rowProblems(kind, row, '2027-06-01').map(({ field, problem }) => `${field}: ${problem}`);

describe('what is wrong with a record', () => {
  it('is nothing where it is whole', () => {
    expect(problems('plants', { code: 'A/1', genet: 'A', planted_on: '2026-05-01', east_m: 1.2 })).toEqual(
      [],
    );
    expect(problems('notes', { plant: 'A/1', trait: 'height', on: '2027-06-01', value: 12 })).toEqual([]);
    expect(
      problems('notes', { plant: 'A/1', trait: 'first-flower', on: '2027-06-01', state: 'not yet' }),
    ).toEqual([]);
  });

  it('is said field by field', () => {
    expect(
      problems('plants', { code: ' A', colour: 'blue', planted_on: '2026-02-30', age_at_planting: -1 }),
    ).toEqual([
      'colour: a plant has no field “colour”',
      'code: a code may not begin or end with a blank',
      'genet: genet is missing: the genet it is a plant of',
      'planted_on: “2026-02-30” is not a date of the calendar',
      'age_at_planting: -1 years is too small',
    ]);
  });

  it('is said between fields', () => {
    expect(problems('weather', { site: 'home', on: '2027-01-01', tmin_c: 9, tmax_c: 2 })[0]).toMatch(
      /lowest temperature is above/,
    );
    expect(
      problems('plants', { code: 'A', genet: 'A', planted_on: '2026-05-01', gone_on: '2025-01-01' })[0],
    ).toMatch(/lies before planted_on/);
    expect(
      problems('germination-tests', {
        seed_lot: 'S',
        started_on: '2027-01-01',
        seeds: 25,
        day: 4,
        germinated: 26,
      })[0],
    ).toMatch(/more germinated/);
  });

  it('is said where a note is on nothing, or on two things, or says nothing', () => {
    const note = { trait: 'height', on: '2027-05-01' };
    expect(problems('notes', { ...note, value: 1 })[0]).toMatch(/not said what the note is on/);
    expect(problems('notes', { ...note, value: 1, plant: 'A', genet: 'B' })[0]).toMatch(
      /names both plant and genet/,
    );
    expect(problems('notes', { ...note, plant: 'A' })[0]).toMatch(/no value/);
  });

  it('is a date to come, but for days that may lie ahead', () => {
    expect(problems('notes', { plant: 'A', trait: 'h', value: 1, on: '2027-06-02' })[0]).toMatch(
      /lies in the future; today is 2027-06-01/,
    );
    expect(
      problems('terms', { code: 'T', genet: 'A', from_whom: 'x', asks: 'y', until_date: '2040-01-01' }),
    ).toEqual([]);
  });
});

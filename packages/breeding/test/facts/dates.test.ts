import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateOfDay, dayNumber, dayOfYear, isDate } from '../../src/facts/index.ts';

/** Reference: ECMAScript's Date in UTC (ECMA-262, “Time Values and Time Range”), a proleptic Gregorian calendar as ours. */
describe('calendar dates', () => {
  const days = fc.integer({ min: -135_000, max: 156_000 });

  it('number days as ECMAScript does, there and back', () => {
    fc.assert(
      fc.property(days, (day) => {
        const reference = new Date(day * 86_400_000).toISOString().slice(0, 10);
        expect(dateOfDay(day)).toBe(reference);
        expect(dayNumber(reference)).toBe(day);
      }),
      { seed: 1, numRuns: 3000 },
    );
  });

  it('count the days of a year', () => {
    expect(dayOfYear('2027-01-01')).toBe(1);
    expect(dayOfYear('2027-12-31')).toBe(365);
    // 1900 was no leap year, 2000 was one (Gregorian calendar, 1582).
    expect(dayOfYear('1900-12-31')).toBe(365);
    expect(dayOfYear('2000-12-31')).toBe(366);
  });

  it('take only days that there are', () => {
    expect(['2024-02-29', '2000-02-29', '1600-01-01', '2399-12-31'].filter(isDate)).toHaveLength(4);
    expect(
      [
        '2023-02-29',
        '1900-02-29',
        '2024-04-31',
        '2024-13-01',
        '2024-00-10',
        '24-01-01',
        '2024-1-1',
        '1599-12-31',
        '',
      ].filter(isDate),
    ).toEqual([]);
  });
});

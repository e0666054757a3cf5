import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { examineDates, readDate } from '../../src/tables/index.ts';

describe('dates as people write them', () => {
  it.each([
    ['2027-04-03', '2027-04-03'],
    ['2027/4/3', '2027-04-03'],
    ['2027.04.03', '2027-04-03'],
    ['20270403', '2027-04-03'],
    ['2027-04-03T14:30', '2027-04-03'],
    ['2027-04-03 00:00:00', '2027-04-03'],
    ['2027-04-03T00:00:00Z', '2027-04-03'],
    ['23.4.2027', '2027-04-23'],
    ['4/23/27', '2027-04-23'],
    ['3 Apr 2027', '2027-04-03'],
    ['3-Apr-27', '2027-04-03'],
    ['03/Apr/2027', '2027-04-03'],
    ['03APR2027', '2027-04-03'],
    ['Apr-03-2027', '2027-04-03'],
    ['April 3, 2027', '2027-04-03'],
    ['Apr 3rd 2027', '2027-04-03'],
    ['2027 Apr 3', '2027-04-03'],
    ['Sat 3 April 2027', '2027-04-03'],
    ['3. März 2027', '2027-03-03'],
    ['Samstag, 3. Mai 2027', '2027-05-03'],
    ['3. Dez. 2027', '2027-12-03'],
    ['1er août 2027', '2027-08-01'],
    ['le 3 févr. 2027', '2027-02-03'],
    ['29.2.2028', '2028-02-29'],
    ['1/1/69', '1969-01-01'],
    ['1/1/68', '2068-01-01'],
    ['5/5/2027', '2027-05-05'],
  ])('%s is %s', (text, value) => {
    expect(readDate(text)).toEqual({ ok: true, value });
  });

  it.each([
    ['', /empty/],
    ['3/4/2027', /may be 2027-04-03 or 2027-03-04: say in which order/],
    ['3.4.2027', /say in which order/],
    ['29.2.2027', /there is no day/],
    ['31/04/2027', /there is no day/],
    ['2027-13-01', /there is no day/],
    ['30 Feb 2027', /there is no day/],
    ['2027', /not a whole date/],
    ['April 2027', /not a whole date/],
    ['3.4.', /not a whole date/],
    ['2027-04-03T23:30:00Z', /time zone/],
    ['46115', /inner number of a spreadsheet's date/],
    ['soon', /write it like 2027-04-03/],
    ['3 jui 2027', /is not a date/],
  ])('%j is refused in words', (text, words) => {
    expect(readDate(text)).toMatchObject({ ok: false, problem: expect.stringMatching(words) });
  });

  // source: the months as ICU names them (Intl.DateTimeFormat)
  it.each(['en', 'de', 'fr'])('knows the months of %s, in full and shortened', (language) => {
    for (const month of ['long', 'short'] as const) {
      const format = new Intl.DateTimeFormat(language, {
        day: 'numeric',
        month,
        year: 'numeric',
        timeZone: 'UTC',
      });
      for (let at = 0; at < 12; at++) {
        const value = `2027-${String(at + 1).padStart(2, '0')}-23`;
        expect([format.format(new Date(value)), readDate(format.format(new Date(value)))]).toEqual([
          expect.anything(),
          { ok: true, value },
        ]);
      }
    }
  });

  it('goes by the order of the column', () => {
    expect(readDate('3/4/27', { order: 'dmy' })).toEqual({ ok: true, value: '2027-04-03' });
    expect(readDate('3/4/27', { order: 'mdy' })).toEqual({ ok: true, value: '2027-03-04' });
    expect(readDate('03-04-27', { order: 'ymd' })).toEqual({ ok: true, value: '2003-04-27' });
    expect(readDate('13/4/27', { order: 'mdy' })).toMatchObject({
      ok: false,
      problem: expect.stringContaining('month, day, year'),
    });
    expect(readDate('2027-04-03', { order: 'dmy' })).toEqual({ ok: true, value: '2027-04-03' });
  });

  // source: ECMA-376, 1st edition, part 4, 3.17.4.1: 38749 is 2006-02-01
  it('reads bare day numbers only from a spreadsheet, and no years as days', () => {
    expect(readDate({ text: '38749', number: 38_749 }, { dateSystem: 1900 })).toEqual({
      ok: true,
      value: '2006-02-01',
    });
    expect(readDate({ text: '38749' }, {}).ok).toBe(false);
    expect(readDate({ text: '2027', number: 2027 }, { dateSystem: 1900 }).ok).toBe(false);
  });

  // source: the calendar of the JavaScript engine (ECMA-262, 21.4.1), an implementation of its own
  it('has the days of the Gregorian calendar and no others', () => {
    const day = fc.record({
      year: fc.integer({ min: 1000, max: 9999 }),
      month: fc.integer({ min: 0, max: 14 }),
      day: fc.integer({ min: 0, max: 33 }),
    });
    fc.assert(
      fc.property(day, ({ year, month, day }) => {
        const iso = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
        const real = new Date(Date.UTC(year, month - 1, day));
        const exists =
          month >= 1 &&
          month <= 12 &&
          day >= 1 &&
          real.getUTCMonth() === month - 1 &&
          real.getUTCDate() === day;
        expect(readDate(iso)).toEqual(
          exists ? { ok: true, value: iso } : { ok: false, problem: `there is no day “${iso}”` },
        );
      }),
      { seed: 5, numRuns: 5000 },
    );
  });
});

describe('a column of dates', () => {
  it.each([
    [['2027-04-03', '3 Apr 2027', 'gone'], 'any'],
    [['5/5/2027'], 'any'],
    [['03/04/2027', '23/04/2027'], 'dmy'],
    [['03/04/2027', '04/23/2027'], 'mdy'],
  ])('%j is written %s', (texts, order) => {
    expect(examineDates(texts)).toEqual({ order });
  });

  it('is asked about, with two examples, where several orders fit', () => {
    expect(examineDates(['03/04/2027', '05/05/2027', '06/07/2027', '08/09/2027'])).toEqual({
      order: 'ask',
      readings: [
        {
          order: 'dmy',
          examples: [
            { text: '03/04/2027', date: '2027-04-03' },
            { text: '06/07/2027', date: '2027-07-06' },
          ],
        },
        {
          order: 'mdy',
          examples: [
            { text: '03/04/2027', date: '2027-03-04' },
            { text: '06/07/2027', date: '2027-06-07' },
          ],
        },
      ],
    });
  });

  it('is asked about where years of two digits may stand first', () => {
    const examined = examineDates(['27-04-13', '27-05-21']);
    expect(examined).toMatchObject({ order: 'ask', readings: [{ order: 'ymd' }, { order: 'dmy' }] });
  });

  it('is settled by knowing that no date can be later than today', () => {
    expect(examineDates(['03/11/2026', '02/03/2026'], { latest: '2026-06-01' })).toEqual({ order: 'mdy' });
  });

  it('is told to be mixed where no order fits', () => {
    expect(examineDates(['13/04/2027', '04/13/2027'])).toEqual({
      order: 'mixed',
      against: [
        { order: 'ymd', text: '13/04/2027' },
        { order: 'mdy', text: '13/04/2027' },
        { order: 'dmy', text: '04/13/2027' },
      ],
    });
  });
});

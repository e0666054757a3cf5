import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { examineNumbers, isMissingMark, readNumber } from '../../src/tables/index.ts';

describe('numbers as people write them', () => {
  it.each([
    ['1,234.5', 1234.5],
    ['1.234,5', 1234.5],
    ['1’234.5', 1234.5],
    ["1'234.5", 1234.5],
    ['1\u202f234,5', 1234.5],
    ['1 234 567', 1_234_567],
    ['1,234,567', 1_234_567],
    ['12', 12],
    ['+3', 3],
    ['-3.5', -3.5],
    ['−3,5', -3.5],
    ['0,125', 0.125],
    ['.5', 0.5],
    ['1234,567', 1234.567],
    ['1.5e3', 1500],
    ['12 1/2', 12.5],
    ['12-1/2', 12.5],
    ['3/8', 0.375],
    ['1½', 1.5],
    ['¾', 0.75],
    ['-1 1/4', -1.25],
  ])('%s is %d', (text, value) => {
    expect(readNumber(text)).toEqual({ ok: true, value });
  });

  it.each([
    ['12 cm', 12, 'cm'],
    ['12½"', 12.5, 'in'],
    ['12 1/2 inches', 12.5, 'in'],
    ['85%', 85, '%'],
    ['-2,5 °C', -2.5, '°C'],
    ['1 234 kg', 1234, 'kg'],
  ])('%s is %d %s', (text, value, unit) => {
    expect(readNumber(text)).toEqual({ ok: true, value, unit });
  });

  it.each([
    ['', /empty/],
    ['tall', /“tall” is not a number/],
    ['12 apples', /“apples” behind it is no unit/],
    ['1.2.3', /do not fit together/],
    ['12,34,567', /do not fit together/],
    ['1,234', /may be 1.234 or 1234|may be 1234 or 1.234/],
    ['1.234', /may be/],
    ['> 5', /remark/],
    ['5-7', /a range/],
    ['45/60', /not a number|no unit/],
    ['1e999', /too large/],
    ['٣', /not a number/],
  ])('%j is refused in words', (text, words) => {
    expect(readNumber(text)).toMatchObject({ ok: false, problem: expect.stringMatching(words) });
  });

  it('goes by the decimal mark of the column', () => {
    expect(readNumber('1,234', { decimal: ',' })).toEqual({ ok: true, value: 1.234 });
    expect(readNumber('1,234', { decimal: '.' })).toEqual({ ok: true, value: 1234 });
    expect(readNumber('1,5', { decimal: '.' })).toMatchObject({
      ok: false,
      problem: expect.stringContaining('decimal points'),
    });
  });

  // source: the numbers as ICU writes them in these languages (Intl.NumberFormat)
  it.each([
    ['en', '.'],
    ['de', ','],
    ['de-CH', '.'],
    ['fr', ','],
    ['sv', ','],
  ] as const)('reads what is written in %s', (language, decimal) => {
    const format = new Intl.NumberFormat(language, { minimumFractionDigits: 2 });
    for (const value of [0, 0.25, 12.5, 1234.5, -1234.75, 1_234_567.89]) {
      expect(readNumber(format.format(value), { decimal })).toEqual({ ok: true, value });
    }
  });

  it('reads back every number that JavaScript writes, under either mark', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = String(value);
        expect(readNumber(text, { decimal: '.' })).toEqual({ ok: true, value: value + 0 });
        expect(readNumber(text.replace('.', ','), { decimal: ',' })).toEqual({ ok: true, value: value + 0 });
      }),
      { seed: 11, numRuns: 2000 },
    );
  });
});

describe('a column of numbers', () => {
  it.each([
    [['1,234', '2.5'], '.'],
    [['1,234', '0,5'], ','],
    [['1.234', '1.234,5'], ','],
    [['12', '13', ''], 'either'],
    [['tall', '1,234,567'], '.'],
  ])('%j shows %s', (texts, decimal) => {
    expect(examineNumbers(texts)).toEqual({ decimal });
  });

  it('asks where every cell can be read in two ways, and tells of a mixture', () => {
    expect(examineNumbers(['12', '1,234', '5,678'])).toEqual({
      decimal: 'ask',
      example: { text: '1,234', point: 1234, comma: 1.234 },
    });
    expect(examineNumbers(['1,5', '1.5'])).toEqual({ decimal: 'mixed', point: '1.5', comma: '1,5' });
  });
});

// common practice, no source
it('knows the marks for a missing value', () => {
  expect(['', ' ', 'NA', 'n/a', '-', '.', '#N/A'].every(isMissingMark)).toBe(true);
  expect(['0', 'no', '--1'].some(isMissingMark)).toBe(false);
});

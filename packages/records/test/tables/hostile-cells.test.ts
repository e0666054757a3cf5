import { expect, it } from 'vitest';
import { examineDates, examineNumbers, readDate, readNumber, splitHeader } from '../../src/tables/index.ts';
import { detectDialect } from '../../src/tables/text-dialect.ts';

const long = 300_000;

// Each of these would take minutes if a pattern looked at every pair of signs; the test's own time limit would then end it.
it.each(['(', '1', '1,', ' ', '1 ', "'", 'a ', '1.1', '-'])(
  'a cell of %j hundreds of thousands of times over is refused at once',
  (sign) => {
    const text = sign.repeat(long);
    expect(readNumber(text).ok).toBe(false);
    expect(readDate(text).ok).toBe(false);
    expect(splitHeader(text).unit).toBeUndefined();
    expect(examineNumbers([text])).toEqual({ decimal: 'either' });
    expect(examineDates([text])).toEqual({ order: 'any' });
  },
);

it('a long line of separators behind an open quote does not hold up the search for the dialect', () => {
  const dialect = detectDialect(`code,name\n${'1,a\n'.repeat(300)}2,'${'b, '.repeat(60_000)}\n`);
  expect(dialect).toMatchObject({ separator: ',', quote: '"' });
});

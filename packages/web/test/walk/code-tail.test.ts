import { checkCharacter } from '@keelrow/breeding/labels';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plantsByTail } from '../../src/walk/order/code-tail.ts';
import { shortTails } from '../../src/walk/order/short-tails.ts';

const of = (...codes: string[]) => codes.map((code) => ({ code }));
const found = (codes: string[], typed: string): string[] =>
  plantsByTail(of(...codes), typed).plants.map(({ code }) => code);

describe('the tail of a code', () => {
  const codes = ['2031-004-3/1', '2031-004-13/1', '2031-004-3/11', '2029-007-31', 'Old Blue 31'];

  test('finds the plant, best first', () => {
    expect(found(codes, '3/1')).toEqual(['2031-004-3/1', '2031-004-13/1']);
    expect(found(codes, '2031-004-3/1')[0]).toBe('2031-004-3/1');
    expect(found(codes, '31')).toEqual(['2029-007-31', 'Old Blue 31', '2031-004-3/1', '2031-004-13/1']);
    expect(found(codes, 'blue 31')).toEqual(['Old Blue 31']);
    expect(found(codes, '0043/1')).toEqual(['2031-004-3/1']);
    expect(found(codes, '99')).toEqual([]);
    expect(found(codes, '')).toEqual([]);
    expect(found(codes, '/')).toEqual([]);
  });

  test('the check character of the whole code may be typed along', () => {
    const code = '2031-004-3/1';
    expect(found(codes, `${code} ${checkCharacter(code)}`)).toEqual([code]);
    expect(found(codes, `${code}${checkCharacter(code)}`)).toEqual([code]);
  });

  test('a wrong check character is told, and the plant is found all the same', () => {
    const right = checkCharacter('2031-004-3/1')!;
    const wrong = right === 'Q' ? 'R' : 'Q';
    const { plants, checkWrong } = plantsByTail(of(...codes), `2031-004-3/1 ${wrong}`);
    expect(plants[0]?.code).toBe('2031-004-3/1');
    expect(checkWrong).toBe(true);
  });

  test('any end of a code finds its plant, in any case of letters, with or without signs', () => {
    const code = fc
      .tuple(
        fc.integer({ min: 1990, max: 2040 }),
        fc.nat(999),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 9 }),
      )
      .map(
        ([year, serial, seedling, plant]) =>
          `${year}-${String(serial).padStart(3, '0')}-${seedling}/${plant}`,
      );
    fc.assert(
      fc.property(
        fc.uniqueArray(code, { minLength: 1, maxLength: 40 }),
        fc.nat(),
        fc.boolean(),
        (all, pick, plain) => {
          const wanted = all[pick % all.length]!;
          const tail = wanted.slice(-(1 + (pick % wanted.length)));
          const typed = plain ? tail.replace(/[-/]/g, '') : tail;
          if (!/[0-9]/.test(typed)) return;
          const hits = found(all, typed);
          expect(hits).toContain(wanted);
          if (typed === wanted) expect(hits[0]).toBe(wanted);
        },
      ),
    );
  });
});

test('on the plan a code is told by as few of its last parts as single it out', () => {
  const codes = ['2018-001-3/2', '2018-007-3/2', '2018-001-4/1', 'Old Blue'];
  expect([...shortTails(codes)]).toEqual([
    ['2018-001-3/2', '001-3/2'],
    ['2018-007-3/2', '007-3/2'],
    ['2018-001-4/1', '4/1'],
    ['Old Blue', 'Old Blue'],
  ]);
});

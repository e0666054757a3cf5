import { describe, expect, it } from 'vitest';
import { fitTable, type Model, sortLevels } from '../../src/index.ts';
import { parseTable } from './tables.ts';

const columnsOf = (text: string, model: Partial<Model>) =>
  fitTable(parseTable(text), { response: 'y', fixed: [], random: [], ...model }).fixed.map(
    ({ term, level }) => (level === null ? term : `${term} ${level}`),
  );

const CROSSED = `y,a,b,x
1,p,10,1
2,p,9,2
3,q,10,4
5,q,9,3
4,r,10,6
3,r,9,5
2,p,10,8
6,q,9,7
5,r,10,9
1,p,9,11
7,q,10,10
3,r,9,12`;

describe('levels', () => {
  it('ascend as numbers if all are numbers, else by code point', () => {
    expect(sortLevels(['10', '9', '-1', '2.5'])).toEqual(['-1', '2.5', '9', '10']);
    expect(sortLevels(['10', '9', 'x'])).toEqual(['10', '9', 'x']);
    expect(sortLevels(['b', 'a', 'B', 'é'])).toEqual(['B', 'a', 'b', 'é']);
    // U+FF5E stands before U+1F33C by code point, after it by UTF-16 unit.
    expect(sortLevels(['🌼', '～'])).toEqual(['～', '🌼']);
    expect(sortLevels(['1', '01', '1.0'])).toEqual(['01', '1', '1.0']);
  });
});

describe('columns of the fixed terms', () => {
  it('code a class against its first level', () => {
    expect(columnsOf(CROSSED, { fixed: ['b', 'a'] })).toEqual(['intercept', 'b 10', 'a q', 'a r']);
  });

  it('code an interaction against both bases beside its main effects', () => {
    expect(columnsOf(CROSSED, { fixed: ['a', 'b', 'a*b'] })).toEqual([
      'intercept',
      'a q',
      'a r',
      'b 10',
      'a*b q×10',
      'a*b r×10',
    ]);
  });

  it('code an interaction alone by its combinations, the first as base', () => {
    expect(columnsOf(CROSSED, { fixed: ['a*b'] })).toEqual([
      'intercept',
      'a*b p×10',
      'a*b q×9',
      'a*b q×10',
      'a*b r×9',
      'a*b r×10',
    ]);
  });

  it('code an interaction beside one main effect within its levels', () => {
    expect(columnsOf(CROSSED, { fixed: ['a', 'a*b'] })).toEqual([
      'intercept',
      'a q',
      'a r',
      'a*b p×10',
      'a*b q×10',
      'a*b r×10',
    ]);
  });

  it('give every level a slope, or differences of slopes beside a common one', () => {
    expect(columnsOf(CROSSED, { fixed: ['a', 'x*a'], numeric: ['x'] })).toEqual([
      'intercept',
      'a q',
      'a r',
      'x*a p',
      'x*a q',
      'x*a r',
    ]);
    expect(columnsOf(CROSSED, { fixed: ['x', 'x*a'], numeric: ['x'] })).toEqual([
      'intercept',
      'x',
      'x*a q',
      'x*a r',
    ]);
  });

  it('span the same space, whichever way it is coded: the same likelihood of cell means', () => {
    const likelihood = (fixed: string[]) =>
      fitTable(parseTable(CROSSED), { response: 'y', fixed, random: [] }).remlLogLikelihood;
    expect(likelihood(['a*b'])).toBeCloseTo(likelihood(['a', 'b', 'a*b']), 10);
    expect(likelihood(['a', 'a*b'])).toBeCloseTo(likelihood(['a', 'b', 'a*b']), 10);
  });
});

describe('columns that depend on earlier ones', () => {
  it('are dropped, later ones first, and named', () => {
    const table = parseTable(`y,a,twin,x,double
1,p,1,1,2
2,p,1,2,4
3,q,2,4,8
5,q,2,3,6
4,r,3,6,12
3,r,3,5,10`);
    const result = fitTable(table, {
      response: 'y',
      fixed: ['x', 'double', 'twin', 'a'],
      numeric: ['x', 'double'],
      random: [],
    });
    expect(result.fixed.map(({ term }) => term)).toEqual(['intercept', 'x', 'twin', 'twin']);
    expect(result.warnings).toEqual([
      'Left out, because earlier columns or missing combinations determine them: double, a q, a r.',
    ]);
  });

  it('are told from columns that are only nearly alike', () => {
    // Squares of years near 2000 are all but a line; centred, a part in 10^5 of them is not.
    const years = Array.from({ length: 12 }, (_, i) => 1996 + i);
    const rows = years.map((year, i) => `${(i * 7) % 5},${year},${year * year}`).join('\n');
    const result = fitTable(parseTable(`y,year,square\n${rows}`), {
      response: 'y',
      fixed: ['year', 'square'],
      numeric: ['year', 'square'],
      random: [],
    });
    expect(result.fixed.map(({ term }) => term)).toEqual(['intercept', 'year', 'square']);
    expect(result.warnings).toEqual([]);
  });

  it('are named where a combination has no rows', () => {
    const holes = CROSSED.split('\n').filter((line) => !line.includes('r,10'));
    const result = fitTable(parseTable(holes.join('\n')), {
      response: 'y',
      fixed: ['a', 'b', 'a*b'],
      random: [],
    });
    expect(result.fixed.map(({ level }) => level)).toEqual([null, 'q', 'r', '10', 'q×10']);
    expect(result.warnings.join()).toContain('a*b r×10');
  });
});

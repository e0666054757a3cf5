import { describe, expect, it } from 'vitest';
import {
  FitCancelledError,
  fitTable,
  type Model,
  ModelError,
  sparseIdentity,
  type Table,
} from '../../src/index.ts';
import { parseTable } from './tables.ts';

const GOOD = parseTable(`y,group,block,x,w
3.1,a,1,0.5,1
4.2,a,2,0.7,1
2.9,b,1,0.1,2
5.0,b,2,0.9,1
4.4,c,1,1.5,1
3.7,c,2,1.1,2`);
const MODEL: Model = { response: 'y', fixed: ['group'], random: ['block'] };

/** The good table with one column's cells replaced. */
function withColumn(name: string, cells: readonly string[]): Table {
  return { columns: new Map([...GOOD.columns, [name, cells]]) };
}

function errorOf(table: Table, model: Model): ModelError {
  try {
    fitTable(table, model);
  } catch (error) {
    if (error instanceof ModelError) return error;
    throw error;
  }
  throw new Error('the fit went through');
}

describe('a table or model that cannot be fitted is refused with place and remedy', () => {
  it('fits before it is spoilt', () => {
    expect(fitTable(GOOD, MODEL).records).toBe(6);
  });

  it.each<[what: string, table: Table, model: Partial<Model>, message: string]>([
    [
      'an unknown column, with a likely name',
      GOOD,
      { fixed: ['Group'] },
      'column "Group": there is no column "Group". Did you mean "group".',
    ],
    [
      'an unknown column, with the names there are',
      GOOD,
      { fixed: ['colour'] },
      'column "colour": there is no column "colour". The table has "y", "group", "block", "x", "w".',
    ],
    [
      'a response without variation',
      withColumn('y', ['2', '2', '2', '2', '2', '2']),
      {},
      'column "y": "y" has the same value, 2, in all 6 rows used. There is no difference to explain; look whether the right column was named.',
    ],
    [
      'a fixed class with one level',
      withColumn('group', ['a', 'a', 'a', 'a', 'a', 'a']),
      {},
      'column "group": "group" has only one level, "a", in the rows used. Leave it out: there is nothing to compare.',
    ],
    [
      'a random class with one level',
      withColumn('block', ['1', '1', '1', '1', '1', '1']),
      {},
      'column "block": the random term "block" has only one level, "1", in the rows used. Leave it out: a variance between levels needs at least two.',
    ],
    [
      'more columns than rows',
      GOOD,
      { fixed: ['group', 'x', 'group*x', 'w'], numeric: ['x', 'w'], random: [] },
      'the fixed terms need 6 columns and there are only 6 complete rows. Take more rows, or fewer or coarser fixed terms.',
    ],
    [
      'no complete row',
      withColumn('x', ['', ' ', '', 'NA', '', '']),
      { fixed: ['x'], numeric: ['x'] },
      'no row has all of "y", "x", "block"; "x" is missing in 6 of 6 rows. Fill in the missing cells, or leave the emptiest column out of the model.',
    ],
    [
      'a word among numbers',
      withColumn('x', ['0.5', '0.7', 'tall', '0.9', '1.5', '1.1']),
      { fixed: ['x'], numeric: ['x'] },
      'row 4, column "x": "tall" is not a number. Write a number, or leave the cell empty when the value is missing.',
    ],
    [
      'a decimal comma',
      withColumn('y', ['3,1', '4', '3', '5', '4', '3']),
      {},
      'row 2, column "y": "3,1" is not a number. Write decimals with a point.',
    ],
    [
      'a negative weight',
      withColumn('w', ['1', '1', '-2', '1', '1', '1']),
      { weights: 'w' },
      'row 4, column "w": a weight must be above 0, this one is -2. Mend the weight.',
    ],
    [
      'a weight of zero',
      withColumn('w', ['0', '1', '2', '1', '1', '1']),
      { weights: 'w' },
      'row 2, column "w": a weight must be above 0, this one is 0. Leave the cell empty to leave the row out.',
    ],
    [
      'a term both fixed and random',
      GOOD,
      { random: ['group'] },
      'the term "group" is both fixed and random. Keep one of the two.',
    ],
    [
      'an interaction given twice',
      GOOD,
      { fixed: ['group*block', 'block*group'], random: [] },
      'the term "block*group" is given twice. Keep one of the two.',
    ],
    [
      'a response among its own terms',
      GOOD,
      { fixed: ['y'] },
      'the response "y" is also a fixed term. Leave it out of the terms.',
    ],
    [
      'a term without a name',
      GOOD,
      { fixed: ['group*'] },
      'the term "group*" lacks a column name. Write a column, or an interaction as a*b.',
    ],
    [
      'a random number',
      GOOD,
      { random: ['x'], numeric: ['x'] },
      'column "x": the random term "x" is a number. A random term needs at least one class; take the column out of the numeric ones or make the term fixed.',
    ],
    [
      'a random level in every row',
      GOOD,
      { random: ['group*block'], fixed: [] },
      'column "group*block": "group*block" has a level of its own in every row, so its variance cannot be told from the residual. Leave it out, or add rows so that some levels occur more than once.',
    ],
    [
      'two random terms that are the same grouping',
      withColumn('bed', ['x', 'y', 'x', 'y', 'x', 'y']),
      { random: ['block', 'bed'] },
      'column "bed": the random terms "block" and "bed" group the rows in the same way, so their variances cannot be told apart. Keep one of the two.',
    ],
    [
      'a random term that a fixed one explains',
      withColumn('pair', ['p', 'p', 'q', 'q', 'q', 'q']),
      { random: ['pair'] },
      'column "pair": the fixed terms already explain every difference between the levels of "pair", so its variance cannot be estimated. Leave the random term out, or one of the fixed terms that distinguish its levels.',
    ],
    [
      'a response that the fixed terms explain wholly',
      withColumn('y', ['1', '1', '2', '2', '3', '3']),
      {},
      'column "y": the fixed terms explain "y" without remainder. Nothing is left to estimate a variance from; leave out a fixed term that names single rows.',
    ],
    [
      'a held variance of no term',
      GOOD,
      { held: { bed: 2 } },
      '"bed" has no variance to hold. The variances of this model are "block", "residual".',
    ],
    [
      'a held variance below zero',
      GOOD,
      { held: { block: -1 } },
      'the variance of "block" cannot be held at -1. Give a number of 0 or more.',
    ],
    [
      'a held residual of zero',
      GOOD,
      { held: { residual: 0 } },
      'the residual variance cannot be held at 0. Give a number above 0.',
    ],
    [
      'held variances beyond what can be solved',
      GOOD,
      { held: { block: 1e300, residual: 1e-300 }, fixed: [] },
      'the variances are so far apart that the equations cannot be solved. Look whether held variances are in the squared unit of the response.',
    ],
    [
      'columns of different length',
      withColumn('block', ['1', '2']),
      {},
      'column "block": column "block" has 2 cells, "y" has 6. Give every column one cell per row.',
    ],
    ['a table without rows', parseTable('y,group,block'), {}, 'the table has no rows.'],
  ])('%s', (_, table, model, message) => {
    expect(errorOf(table, { ...MODEL, ...model }).message).toContain(message);
  });

  it('tells the parts of an error apart, and the row of the file where given', () => {
    const table = {
      ...withColumn('y', ['1', 'x', '3', '4', '5', '6']),
      rowNumbers: [11, 12, 13, 14, 15, 16],
    };
    expect(errorOf(table, MODEL)).toMatchObject({ row: 12, column: 'y', problem: '"x" is not a number' });
  });

  it('names the variances that the rows do not tell apart', () => {
    // An additive term whose levels are unrelated is the same model as independent effects of the same class.
    const additive = {
      column: 'block',
      levels: ['1', '2'],
      inverse: sparseIdentity(2),
      logDeterminant: 0,
      inbreeding: [0, 0],
    };
    expect(errorOf(GOOD, { response: 'y', fixed: [], random: ['block'], additive }).message).toBe(
      'the rows do not tell the variances of "block" and "additive" apart. Leave one of them out, hold one at a known value, or add rows in which they differ.',
    );
  });

  it('refuses rows that are copies of one another', () => {
    const twice = parseTable(
      `y,plot\n${[3, 5, 4, 8, 6, 7].map((y, i) => `${y},p${i}\n${y},p${i}`).join('\n')}`,
    );
    expect(errorOf(twice, { response: 'y', fixed: [], random: ['plot'] }).message).toContain(
      'there is no residual variance',
    );
  });
});

describe('cells that are missing', () => {
  it('leave their row out, counted, and NA is told', () => {
    const table = parseTable(`y,group,block
3,a,1
,a,2
4,b,1
5,b,2
NA,b,1
2,a,2
7,,1
4,b,2
3,a,1`);
    const result = fitTable(table, MODEL);
    expect(result).toMatchObject({ records: 6, omitted: 3 });
    expect(result.warnings).toContain('NA was read as a missing cell in "y".');
  });
});

describe('a fit that is watched', () => {
  it('reports each iteration, and stops when asked', () => {
    const seen: number[] = [];
    const result = fitTable(
      GOOD,
      { ...MODEL, fixed: ['x'], numeric: ['x'] },
      {
        onProgress: ({ iteration, variances }) => {
          seen.push(iteration);
          expect(variances.map(({ term }) => term).at(-1)).toBe('residual');
        },
      },
    );
    expect(seen).toEqual(Array.from({ length: seen.length }, (_, i) => i + 1));
    expect(result.iterations).toBeGreaterThanOrEqual(seen.length);
    expect(() => fitTable(GOOD, MODEL, { isCancelled: () => true })).toThrow(FitCancelledError);
  });

  it('says when it did not settle', () => {
    const result = fitTable(GOOD, { ...MODEL, fixed: [], random: ['block', 'group'] }, { maxIterations: 0 });
    expect(result.converged).toBe(false);
    expect(result.warnings.join(' ')).toContain(
      'did not settle in 0 iterations; do not rely on these estimates',
    );
  });
});

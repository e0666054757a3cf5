import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type FitResult, fitTable, type Model } from '../../src/index.ts';
import { readTable } from './tables.ts';

// Trials of perennials that lie outside the project; their own READMEs give what is expected.
const fileOf = (trial: string) =>
  new URL(`../../../../../shared/reference/realdata/${trial}/data.csv`, import.meta.url).pathname;
const fitted = (trial: string, model: Model): FitResult => fitTable(readTable(fileOf(trial)), model);
const varianceOf = ({ variances }: FitResult, term: string) =>
  variances.find((variance) => variance.term === term)!.estimate;

const cocksfoot = 'trial_cocksfoot_heading_dates';

describe.skipIf(!existsSync(fileOf(cocksfoot)))('heading dates of cocksfoot, 111 of 175 cells filled', () => {
  // source: the set's README (REML, variety fixed, year random); data of Piepho 1999, Biometrics 55:1120.
  it('have the variances and the likelihood expected', () => {
    const result = fitted(cocksfoot, {
      response: 'heading_days_from_april1',
      fixed: ['variety'],
      random: ['year'],
    });
    expect(result).toMatchObject({ records: 111, converged: true });
    expect(varianceOf(result, 'year')).toBeCloseTo(19.98, 3);
    expect(varianceOf(result, 'residual')).toBeCloseTo(1.3001, 4);
    expect(result.remlLogLikelihood).toBeCloseTo(-166.6449, 4);
  });
});

const alfalfa = 'trial_alfalfa_perennial';

describe.skipIf(!existsSync(fileOf(alfalfa)))('alfalfa in split plots', () => {
  // source: the set's README: variety F 0.653 (2, 10), cut date F 23.39 (3, 45) (Snedecor & Cochran 1980). For a balanced
  // layout REML equals the analysis of variance (Searle, Casella & McCulloch 1992, section 4.4), so F is the mean square
  // between the means of varieties or dates over what the variances fitted make of its stratum.
  const model: Model = {
    response: 'yield_t_acre',
    fixed: ['variety', 'cut_date', 'variety*cut_date'],
    random: ['block', 'block*variety'],
  };
  const table = existsSync(fileOf(alfalfa)) ? readTable(fileOf(alfalfa)) : { columns: new Map() };
  /** Mean square between the levels of a column, each mean over `each` plots. */
  const meanSquare = (column: string, each: number): number => {
    const y = table.columns.get('yield_t_acre')!.map(Number);
    const sums = new Map<string, number>();
    table.columns.get(column)!.forEach((level: string, k: number) => {
      sums.set(level, (sums.get(level) ?? 0) + y[k]!);
    });
    const grand = y.reduce((sum: number, value: number) => sum + value, 0) / y.length;
    const squares = [...sums.values()].map((sum) => each * (sum / each - grand) ** 2);
    return squares.reduce((sum, square) => sum + square, 0) / (sums.size - 1);
  };

  it('has the F tests of its analysis of variance', () => {
    const result = fitted(alfalfa, model);
    expect(result).toMatchObject({ records: 72, converged: true });
    const plots = varianceOf(result, 'residual');
    const wholePlots = plots + 4 * varianceOf(result, 'block*variety');
    expect(meanSquare('variety', 24) / wholePlots).toBeCloseTo(0.653, 3);
    expect(meanSquare('cut_date', 18) / plots).toBeCloseTo(23.39, 2);
  });
});

const apple = 'trial_apple_rootstock_field_positions';

describe.skipIf(!existsSync(fileOf(apple)))('apples on four rootstocks, some trees missing', () => {
  // The set gives no figures to expect. source: without random terms the model is least squares, by its definition: stock and
  // cultivar together are eight cells, whose means and pooled variance are written out here.
  it('leaves the missing trees out and is least squares without random terms', () => {
    const table = readTable(fileOf(apple));
    const cells = new Map<string, number[]>();
    table.columns.get('yield')!.forEach((text, k) => {
      if (text === '' || text === 'NA') return;
      const cell = `${table.columns.get('stock')![k]}×${table.columns.get('gen')![k]}`;
      cells.set(cell, [...(cells.get(cell) ?? []), Number(text)]);
    });
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const records = [...cells.values()].reduce((sum, values) => sum + values.length, 0);
    const squares = [...cells.values()]
      .flatMap((values) => values.map((value) => (value - mean(values)) ** 2))
      .reduce((sum, square) => sum + square, 0);
    const result = fitTable(table, { response: 'yield', fixed: ['stock*gen'], random: [] });
    expect(result.records).toBe(records);
    expect(result.records + result.omitted).toBe(120);
    expect(result.omitted).toBeGreaterThan(0);
    expect(varianceOf(result, 'residual')).toBeCloseTo(squares / (records - 8), 8);
    const effect = (level: string) => result.fixed.find((fixed) => fixed.level === level)?.estimate ?? 0;
    const intercept = result.fixed[0]!.estimate;
    for (const [cell, values] of cells) expect(intercept + effect(cell)).toBeCloseTo(mean(values), 8);
  });
});

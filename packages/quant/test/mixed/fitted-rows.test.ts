import { describe, expect, it } from 'vitest';
import { fitModel, ratioOfVariances } from '../../src/index.ts';
import { denseInverse } from '../sparse/dense-reference.ts';
import { denseReml } from './dense-likelihood.ts';
import { byHand, MODEL, simulated } from './unbalanced-example.ts';

// source: definitions of best linear unbiased prediction (C. R. Henderson 1975, Biometrics 31:423-447) and of conditional
// residuals, written down with dense matrices.

type Matrix = number[][];
const times = (a: Matrix, b: Matrix): Matrix =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)));
const transposed = (a: Matrix): Matrix => a[0]!.map((_, j) => a.map((row) => row[j]!));

const table = simulated(21, 90);
const cells = table.columns.get('y')!;
const used = cells.map((_, k) => k).filter((k) => cells[k] !== '');
const { y, design, v, row, tree } = byHand(table);
const weights = used.map((k) => Number(table.columns.get('w')![k]));
const fitted = fitModel(table, MODEL);
const variances = fitted.result.variances.map(({ estimate }) => estimate);
const dense = denseReml(design, v(variances), y);
const fixedPart = design.map((x) => x.reduce((sum, value, j) => sum + value * dense.fixed[j]!, 0));
const noise = weights.map((w) => variances[2]! / w);
const vInverse = denseInverse(v(variances)).inverse;
const vx = times(vInverse, design);
const correction = times(times(vx, dense.fixedCovariance), transposed(vx));
/** P = V⁻¹ − V⁻¹X(X'V⁻¹X)⁻¹X'V⁻¹ */
const p = vInverse.map((line, i) => line.map((value, j) => value - correction[i]![j]!));

describe('fitted values and residuals of rows', () => {
  const rows = fitted.fittedRows();

  it('equal those of the definition, in the place of their row, NaN for rows left out', () => {
    used.forEach((k, i) => {
      const residual = noise[i]! * dense.weighted[i]!;
      expect(rows.fixedPart[k]!).toBeCloseTo(fixedPart[i]!, 5);
      expect(rows.residual[k]!).toBeCloseTo(residual, 5);
      expect(rows.fitted[k]!).toBeCloseTo(y[i]! - residual, 5);
    });
    cells.forEach((cell, k) => {
      for (const values of Object.values(rows)) expect(Number.isNaN(values[k])).toBe(cell === '');
    });
  });

  it('are standardised by the root of R P R', () => {
    used.forEach((k, i) => {
      const sd = noise[i]! * Math.sqrt(p[i]![i]!);
      expect(rows.standardised[k]!).toBeCloseTo((noise[i]! * dense.weighted[i]!) / sd, 5);
    });
  });

  it('have no standardised residual where a row alone determines its own fixed effect', () => {
    const columns = new Map([...table.columns, ['only', cells.map((_, k) => (k === 3 ? 'this' : 'others'))]]);
    const alone = fitModel({ columns }, { ...MODEL, fixed: ['only'], numeric: [] }).fittedRows();
    expect(alone.standardised[3]).toBeNaN();
    expect(Math.abs(alone.residual[3]!)).toBeLessThan(1e-9);
    expect(alone.standardised[4]).not.toBeNaN();
  });
});

describe('weights of rows in an estimate', () => {
  const sum = [
    { term: 'row', level: 'r1', weight: 1 },
    { term: 'tree', level: '4', weight: 2 },
  ];

  it('are the row of G Z P that belongs to the sum', () => {
    const w = fitted.rowWeights(sum);
    // cov(sum, y) P
    const share = used.map(
      (_, i) => variances[0]! * (row[i] === 'r1' ? 1 : 0) + 2 * variances[1]! * (tree[i] === '4' ? 1 : 0),
    );
    used.forEach((k, j) => {
      const expected = share.reduce((total, value, i) => total + value * p[i]![j]!, 0);
      expect(w[k]!).toBeCloseTo(expected, 6);
    });
    cells.forEach((cell, k) => {
      if (cell === '') expect(w[k]).toBe(0);
    });
  });

  it('give the random part from deviations and the whole from responses', () => {
    const { fixedPart: fixed } = fitted.fittedRows();
    const whole = [
      ...sum,
      { term: 'intercept', level: null, weight: 1 },
      { term: 'x', level: null, weight: 2010 },
      { term: 'kind', level: 'b', weight: 1 },
    ];
    const w = fitted.rowWeights(whole);
    const total = used.reduce((s, k) => s + w[k]! * Number(cells[k]), 0);
    const deviations = used.reduce((s, k) => s + w[k]! * (Number(cells[k]) - fixed[k]!), 0);
    expect(total).toBeCloseTo(fitted.combine(whole).estimate, 7);
    expect(deviations).toBeCloseTo(fitted.combine(sum).estimate, 8);
  });
});

describe('errors of variances', () => {
  it('have a covariance matrix that is the inverse of ½ q P q by dense matrices', () => {
    const { terms, matrix } = fitted.varianceCovariance!;
    expect(terms).toEqual(['row', 'tree', 'residual']);
    const same = (names: readonly (string | undefined)[]) =>
      names.map((a) => names.map((b) => (a === b ? 1 : 0)));
    const parts = [
      same(row),
      same(tree),
      weights.map((w, i) => weights.map((_, j) => (i === j ? 1 / w : 0))),
    ];
    const working = parts.map((part) =>
      part.map((line) => line.reduce((s, value, k) => s + value * dense.weighted[k]!, 0)),
    );
    const information = working.map((a) => {
      const pa = p.map((line) => line.reduce((s, value, k) => s + value * a[k]!, 0));
      return working.map((b) => 0.5 * b.reduce((s, value, k) => s + value * pa[k]!, 0));
    });
    const { inverse } = denseInverse(information);
    inverse.flat().forEach((value, i) => {
      expect(Math.abs(matrix[i]! / value - 1)).toBeLessThan(1e-5);
    });
    fitted.result.variances.forEach(({ se }, i) => {
      expect(se!).toBeCloseTo(Math.sqrt(matrix[4 * i]!), 12);
    });
  });

  it('give a ratio the error of the delta method', () => {
    const { value, se } = ratioOfVariances(fitted, ['row'], ['row', 'tree', 'residual']);
    const total = variances[0]! + variances[1]! + variances[2]!;
    expect(value).toBeCloseTo(variances[0]! / total, 12);
    // Slopes by differences.
    const ratio = (moved: readonly number[]) => moved[0]! / (moved[0]! + moved[1]! + moved[2]!);
    const slopes = variances.map((variance, i) => {
      const h = 1e-5 * variance;
      const at = (sign: number) => ratio(variances.map((other, k) => other + (k === i ? sign * h : 0)));
      return (at(1) - at(-1)) / (2 * h);
    });
    const { matrix } = fitted.varianceCovariance!;
    let expected = 0;
    slopes.forEach((a, i) => {
      slopes.forEach((b, k) => {
        expected += a * b * matrix[i * 3 + k]!;
      });
    });
    expect(se!).toBeCloseTo(Math.sqrt(expected), 8);
  });

  it('are null where all variances are held, and an unknown term is named', () => {
    const held = fitModel(table, { ...MODEL, held: { row: 4, tree: 2, residual: 1 } });
    expect(held.varianceCovariance).toBeNull();
    expect(ratioOfVariances(held, ['row'], ['row', 'residual'])).toEqual({ value: 0.8, se: null });
    expect(() => ratioOfVariances(held, ['raw'], ['row'])).toThrow('"raw" has no variance in this model');
  });

  it('leave held variances out of the matrix', () => {
    const held = fitModel(table, { ...MODEL, held: { row: 4 } });
    expect(held.varianceCovariance!.terms).toEqual(['tree', 'residual']);
    expect(ratioOfVariances(held, ['row'], ['row']).se).toBeNull();
  });
});

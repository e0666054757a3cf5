import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/random/seeded-random.ts';
import { factorise, NotPositiveDefiniteError } from '../../src/sparse/cholesky.ts';
import { minimumDegreeOrder } from '../../src/sparse/minimum-degree.ts';
import { selectedInverse } from '../../src/sparse/selected-inverse.ts';
import { solve, solveTransposed } from '../../src/sparse/solve.ts';
import { solveMany } from '../../src/sparse/solve-many.ts';
import { analyse } from '../../src/sparse/symbolic.ts';
import { quadraticForm, type SparseSymmetric, symmetricFromEntries } from '../../src/sparse/symmetric.ts';
import { denseInverse, positiveDefinite, randomPositiveDefinite, toDense } from './dense-reference.ts';

// Diagonally dominant matrices with a margin of 0.1: condition up to a few thousand, so 1e-10 leaves three digits.
const ALLOWED = 1e-10;

/** Largest difference of the selected inverse from the dense inverse, over all entries of the panels. */
function selectedInverseError(matrix: SparseSymmetric): { error: number; entries: number } {
  const symbolic = analyse(matrix);
  const inverse = selectedInverse(factorise(symbolic, matrix.values));
  const dense = denseInverse(toDense(matrix)).inverse;
  let error = 0;
  let entries = 0;
  for (let s = 0; s < symbolic.supernodes; s++) {
    const begin = symbolic.firstColumn[s]!;
    const width = symbolic.firstColumn[s + 1]! - begin;
    for (let r = symbolic.rowStart[s]!; r < symbolic.rowStart[s + 1]!; r++) {
      const height = r - symbolic.rowStart[s]!;
      for (let c = 0; c < Math.min(width, height + 1); c++) {
        const got = inverse[symbolic.panelStart[s]! + height * width + c]!;
        const i = symbolic.order[symbolic.rows[r]!]!;
        const j = symbolic.order[begin + c]!;
        error = Math.max(error, Math.abs(got - dense[i]![j]!));
        entries++;
      }
    }
  }
  return { error, entries };
}

/** Grid of points each tied to its four neighbours: a pattern with real fill. */
function grid(side: number): SparseSymmetric {
  const rows: number[] = [];
  const columns: number[] = [];
  const values: number[] = [];
  for (let x = 0; x < side; x++) {
    for (let y = 0; y < side; y++) {
      const here = x * side + y;
      const entry = (column: number, value: number) => {
        rows.push(here);
        columns.push(column);
        values.push(value);
      };
      entry(here, 4.2);
      if (x + 1 < side) entry(here + side, -1);
      if (y + 1 < side) entry(here + 1, -1);
    }
  }
  return symmetricFromEntries(side * side, rows, columns, values);
}

function factorEntries(matrix: SparseSymmetric, order?: Int32Array): number {
  return analyse(matrix, order).stored;
}

describe('sparse symmetric matrices', () => {
  it('sum entries of the same place, whichever triangle they come from', () => {
    const matrix = symmetricFromEntries(3, [0, 2, 0, 1, 2], [0, 0, 2, 1, 2], [1, 2, 3, 4, 5]);
    expect(toDense(matrix)).toEqual([
      [1, 0, 5],
      [0, 4, 0],
      [5, 0, 5],
    ]);
    expect(quadraticForm(matrix, Float64Array.of(1, 2, 3))).toBe(1 + 16 + 45 + 2 * 15);
    expect(() => symmetricFromEntries(2, [0, 2], [0, 0], [1, 1])).toThrow('outside 0 … 1');
  });
});

describe('minimum degree order', () => {
  it('is a permutation, the same on every run', () => {
    fc.assert(
      fc.property(positiveDefinite, (matrix) => {
        const order = minimumDegreeOrder(matrix);
        expect([...order].sort((a, b) => a - b)).toEqual([...order.keys()]);
        expect(minimumDegreeOrder(matrix)).toEqual(order);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it('eliminates an arrow from its tips, so that no fill arises', () => {
    const size = 200;
    const tips = Array.from({ length: size - 1 }, (_, i) => i + 1);
    const arrow = symmetricFromEntries(
      size,
      [...Array(size).keys(), ...tips.map(() => 0)],
      [...Array(size).keys(), ...tips],
      [...Array(size).fill(size), ...tips.map(() => 1)],
    );
    const order = minimumDegreeOrder(arrow);
    expect(order.indexOf(0)).toBeGreaterThanOrEqual(size - 2);
    expect(factorEntries(arrow, order)).toBeLessThan(3 * size);
  });

  it('needs less room than nested rows on a 40 × 40 grid', () => {
    const matrix = grid(40);
    const natural = Int32Array.from({ length: 1600 }, (_, i) => i);
    // A band of 40 columns: 1600 × 40 numbers without reordering. George's nested dissection of a grid of this size
    // needs about 31/4 n log2 √n = 66,000 at worst; minimum degree is known to do better on grids this small.
    expect(factorEntries(matrix)).toBeLessThan(0.65 * factorEntries(matrix, natural));
  });
});

describe('sparse Cholesky against dense elimination', () => {
  it('solves, and has the log-determinant', () => {
    fc.assert(
      fc.property(positiveDefinite, fc.nat(), (matrix, seed) => {
        const random = seededRandom(seed);
        const truth = Float64Array.from({ length: matrix.size }, () => random.normal());
        const dense = toDense(matrix);
        const b = Float64Array.from(dense, (row) => row.reduce((sum, v, j) => sum + v * truth[j]!, 0));
        const factor = factorise(analyse(matrix), matrix.values);
        solve(factor, b);
        b.forEach((x, i) => {
          expect(Math.abs(x - truth[i]!)).toBeLessThan(ALLOWED);
        });
        expect(Math.abs(factor.logDeterminant - denseInverse(dense).logDeterminant)).toBeLessThan(ALLOWED);
      }),
      { seed: 12, numRuns: 80 },
    );
  });

  it('solves for several right-hand sides as for one, bit for bit', () => {
    fc.assert(
      fc.property(positiveDefinite, fc.nat(), (matrix, seed) => {
        const random = seededRandom(seed);
        const factor = factorise(analyse(matrix), matrix.values);
        const sides = Array.from({ length: random.integer(11) }, () =>
          Float64Array.from({ length: matrix.size }, () => random.normal()),
        );
        const alone = sides.map((side) => {
          const b = side.slice();
          solve(factor, b);
          return b;
        });
        solveMany(factor, sides);
        sides.forEach((side, k) => {
          expect(side).toEqual(alone[k]);
        });
      }),
      { seed: 14, numRuns: 80 },
    );
  });

  it('has every selected entry of the inverse', () => {
    fc.assert(
      fc.property(positiveDefinite, (matrix) => {
        expect(selectedInverseError(matrix).error).toBeLessThan(ALLOWED);
      }),
      { seed: 13, numRuns: 80 },
    );
  });

  it('holds for panels wider than every block of the dense kernels', () => {
    // 330 columns, nearly full, with sparse rows before them: strips, stretches and chunks all have remainders.
    const matrix = randomPositiveDefinite(330, 30_000, 5);
    const { error, entries } = selectedInverseError(matrix);
    expect(error).toBeLessThan(ALLOWED);
    expect(entries).toBeGreaterThan(330 * 150);
    expect(selectedInverseError(grid(18)).error).toBeLessThan(ALLOWED);
  });

  it('gives draws with the inverse as covariance', () => {
    const matrix = randomPositiveDefinite(12, 20, 6);
    const factor = factorise(analyse(matrix), matrix.values);
    // Unit vectors in place of draws: the sum of x x' over them is the covariance exactly.
    const covariance = Array.from({ length: 12 }, () => new Array<number>(12).fill(0));
    for (let k = 0; k < 12; k++) {
      const x = new Float64Array(12);
      x[k] = 1;
      solveTransposed(factor, x);
      for (let i = 0; i < 12; i++) for (let j = 0; j < 12; j++) covariance[i]![j]! += x[i]! * x[j]!;
    }
    const { inverse } = denseInverse(toDense(matrix));
    for (let i = 0; i < 12; i++) {
      for (let j = 0; j < 12; j++)
        expect(Math.abs(covariance[i]![j]! - inverse[i]![j]!)).toBeLessThan(ALLOWED);
    }
  });

  it('names a row when the matrix is not positive definite', () => {
    const matrix = symmetricFromEntries(2, [0, 1, 0], [0, 1, 1], [1, 1, 2]);
    expect(() => factorise(analyse(matrix), matrix.values)).toThrow(NotPositiveDefiniteError);
    // Positive definite on paper, but its pivot 1e-15 is less than the rounding of the entries it comes from.
    const nearly = symmetricFromEntries(2, [0, 1, 0], [0, 1, 1], [1, 1 + 1e-15, 1]);
    expect(() => factorise(analyse(nearly), nearly.values)).toThrow(NotPositiveDefiniteError);
  });

  it('reuses its analysis and its room for new values', () => {
    const matrix = randomPositiveDefinite(40, 120, 7);
    const symbolic = analyse(matrix);
    const first = factorise(symbolic, matrix.values);
    const before = first.logDeterminant;
    const doubled = factorise(
      symbolic,
      matrix.values.map((v) => 2 * v),
      first.panels,
    );
    expect(doubled.logDeterminant).toBeCloseTo(before + 40 * Math.log(2), 10);
    expect(doubled.panels).toBe(first.panels);
  });
});

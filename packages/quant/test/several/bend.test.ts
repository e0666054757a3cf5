import { describe, expect, it } from 'vitest';
import { symmetricEigen } from '../../src/dense/symmetric-eigen.ts';
import { bend, seededRandom } from '../../src/index.ts';
import { nearestCorrelation } from '../../src/several/nearest-correlation.ts';

describe('the nearest correlation matrix', () => {
  it('is that of the published example', () => {
    // source: N. J. Higham 2002, IMA Journal of Numerical Analysis 22:329-343, example of section 4: 0.7607 and 0.1573 (from
    // memory).
    const found = nearestCorrelation([1, 1, 0, 1, 1, 1, 0, 1, 1], 3);
    expect(found[1]!).toBeCloseTo(0.7607, 4);
    expect(found[5]!).toBeCloseTo(0.7607, 4);
    expect(found[2]!).toBeCloseTo(0.1573, 4);
    for (const i of [0, 4, 8]) expect(found[i]).toBe(1);
  });

  it('lies nearer than any other correlation matrix that random search finds', () => {
    const random = seededRandom(3);
    const wanted = [1, 0.9, -0.4, 0.9, 1, 0.6, -0.4, 0.6, 1];
    const found = nearestCorrelation(wanted, 3);
    const distance = (m: ArrayLike<number>) => wanted.reduce((sum, v, e) => sum + (v - m[e]!) ** 2, 0);
    expect(Math.min(...symmetricEigen(found, 3).values)).toBeGreaterThan(-1e-10);
    let tried = 0;
    while (tried < 2000) {
      const [a, b, c] = [found[1]!, found[2]!, found[5]!].map((r) => r + random.normal(0, 0.05));
      const other = Float64Array.of(1, a!, b!, a!, 1, c!, b!, c!, 1);
      if (Math.min(...symmetricEigen(other, 3).values) < 0) continue;
      tried++;
      expect(distance(other)).toBeGreaterThan(distance(found) - 1e-9);
    }
  });
});

describe('bending a covariance matrix', () => {
  it('leaves a positive definite one as it is', () => {
    const matrix = [4, 1, 1, 9];
    expect(bend(matrix, 2)).toEqual({ matrix: Float64Array.from(matrix), changed: false, largestChange: 0 });
  });

  it('keeps variances and brings eigenvalues of the correlations to the least', () => {
    const sd = [1, 10, 0.1];
    const matrix = [1, 0.95, -0.6, 0.95, 1, 0.6, -0.6, 0.6, 1].map(
      (r, e) => r * sd[Math.floor(e / 3)]! * sd[e % 3]!,
    );
    const { matrix: bent, changed, largestChange } = bend(matrix, 3, 0.01);
    expect(changed).toBe(true);
    expect(largestChange).toBeGreaterThan(0.1);
    for (const i of [0, 4, 8]) expect(bent[i]).toBe(matrix[i]);
    const correlations = bent.map((v, e) => v / (sd[Math.floor(e / 3)]! * sd[e % 3]!));
    expect(Math.min(...symmetricEigen(correlations, 3).values)).toBeCloseTo(0.01, 6);
  });

  it('keeps an element without variance apart, and refuses a negative one', () => {
    const { matrix } = bend([1, 0, 1.5, 0, 0, 0, 1.5, 0, 1], 3, 0.01);
    expect(matrix[2]!).toBeCloseTo(0.99, 6);
    expect([matrix[1], matrix[4], matrix[5]]).toEqual([0, 0, 0]);
    expect(() => bend([-1], 1)).toThrow('the variance of element 0 is -1');
  });
});

describe('eigenvalues of symmetric matrices', () => {
  it('rebuild the matrix, with vectors at right angles', () => {
    const random = seededRandom(9);
    for (const n of [1, 2, 5, 12]) {
      const matrix = new Float64Array(n * n);
      for (let i = 0; i < n; i++) {
        for (let j = 0; j <= i; j++) matrix[i * n + j] = matrix[j * n + i] = random.normal(0, 3);
      }
      const { values, vectors } = symmetricEigen(matrix, n);
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          let rebuilt = 0;
          let product = 0;
          for (let k = 0; k < n; k++) {
            rebuilt += values[k]! * vectors[i * n + k]! * vectors[j * n + k]!;
            product += vectors[k * n + i]! * vectors[k * n + j]!;
          }
          expect(rebuilt).toBeCloseTo(matrix[i * n + j]!, 11);
          expect(product).toBeCloseTo(i === j ? 1 : 0, 12);
        }
      }
    }
  });
});

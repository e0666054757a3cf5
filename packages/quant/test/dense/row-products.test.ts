import { describe, expect, it } from 'vitest';
import { addPlainTiles } from '../../src/dense/plain-tiles.ts';
import { addRowProducts } from '../../src/dense/row-products.ts';
import { prepareTiles, STRETCH } from '../../src/dense/tiles.ts';
import { seededRandom } from '../../src/index.ts';

const random = seededRandom('row products');
const numbers = (length: number) => Float64Array.from({ length }, () => random.normal());

describe('products of rows', () => {
  it('are the sums of products by definition, for any size', () => {
    for (const [m, n, k] of [
      [1, 1, 1],
      [7, 5, 3],
      [64, 33, 20],
      [301, 270, 263],
      [530, 9, 600],
    ] as const) {
      const [a, b, c] = [numbers(m * k), numbers(n * k), numbers(m * n)];
      const expected = c.map((value, e) => {
        let sum = 0;
        for (let q = 0; q < k; q++) sum += a[Math.floor(e / n) * k + q]! * b[(e % n) * k + q]!;
        return value - sum;
      });
      const block = (data: Float64Array, stride: number) => ({ data, offset: 0, stride });
      addRowProducts(block(c, n), block(a, k), block(b, k), m, n, k, -1);
      c.forEach((value, e) => {
        if (Math.abs(value - expected[e]!) > 1e-10) expect(value, `${m} × ${n}, ${e}`).toBe(expected[e]);
      });
    }
  });

  it('are the same bit for bit by the vector program and in plain JavaScript', () => {
    const vector = prepareTiles()!;
    for (const lowerOnly of [false, true]) {
      for (const [rows, columns, length] of [
        [8, 8, 128],
        [300, 260, 17],
        [516, 516, STRETCH],
        [1024, 4, 5],
      ] as const) {
        const stride = length + 3;
        const [a, b] = [numbers(rows * stride), numbers(columns * stride)];
        const first = numbers(rows * (columns + 1) + 2);
        const second = first.slice();
        const of = (data: Float64Array) => ({ data, offset: 2, stride: columns + 1 });
        const at = (data: Float64Array) => ({ data, offset: 1, stride });
        vector(of(first), at(a), at(b), rows, columns, length, -1, lowerOnly);
        addPlainTiles(of(second), at(a), at(b), rows, columns, length, -1, lowerOnly);
        expect(first.every((value, e) => Object.is(value, second[e]))).toBe(true);
      }
    }
  });
});

import { expect, test } from 'vitest';
import { partsOf } from '../../src/traits/variation-parts.ts';

const variance = (term: string, estimate: number, se: number | null) => ({ term, words: term, estimate, se });

test('variances are shares of their sum, what a genet is first and the unexplained last, numbered in that order', () => {
  const parts = partsOf([
    variance('residual', 6, 0.4),
    variance('bed', 0, null),
    variance('genet', 1, 0.2),
    variance('additive', 3, 0.6),
  ]);
  expect(parts.map(({ term, number, share }) => [term, number, share])).toEqual([
    ['additive', 1, 0.3],
    ['genet', 2, 0.1],
    ['bed', 3, 0],
    ['residual', 4, 0.6],
  ]);
});

test('the error of a spread is that of the variance over twice the spread, and none at a spread of 0', () => {
  // source: delta method, d√v = dv / (2√v): v = 4 ± 0.8 gives 2 ± 0.2.
  expect(partsOf([variance('genet', 4, 0.8)])[0]).toMatchObject({ spread: 2, spreadSe: 0.2 });
  expect(partsOf([variance('genet', 0, 0.8)])[0]).toMatchObject({ spread: 0, spreadSe: null, share: 0 });
});

import { type AdditiveTerm, symmetricFromEntries } from '../../src/index.ts';
import { denseInverse } from '../sparse/dense-reference.ts';

/** The additive term of a covariance matrix given in full. */
export function additiveOf(column: string, covariance: readonly (readonly number[])[]): AdditiveTerm {
  const { inverse, logDeterminant } = denseInverse(covariance);
  const rows: number[] = [];
  const columns: number[] = [];
  const values: number[] = [];
  inverse.forEach((row, i) => {
    row.slice(0, i + 1).forEach((value, j) => {
      if (Math.abs(value) < 1e-12) return;
      rows.push(i);
      columns.push(j);
      values.push(value);
    });
  });
  return {
    column,
    levels: covariance.map((_, i) => String(i + 1)),
    inverse: symmetricFromEntries(covariance.length, rows, columns, values),
    logDeterminant,
    inbreeding: covariance.map((row, i) => row[i]! - 1),
  };
}

/** L with LL' = covariance, by the textbook recursion. */
export function lowerRoot(covariance: readonly (readonly number[])[]): number[][] {
  const root = covariance.map((row) => row.map(() => 0));
  covariance.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      let sum = row[j]!;
      for (let k = 0; k < j; k++) sum -= root[i]![k]! * root[j]![k]!;
      root[i]![j] = i === j ? Math.sqrt(sum) : sum / root[j]![j]!;
    }
  });
  return root;
}

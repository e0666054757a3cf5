import { normalCdf, normalQuantile } from '@keelrow/quant';

/** A normal distribution by its mean and the Cholesky factor L of its precision, LL' = covariance⁻¹. */
export interface NormalByPrecision {
  readonly mean: readonly number[];
  readonly factor: readonly (readonly number[])[];
}

export interface Point {
  readonly values: readonly number[];
  /** Log-density of the last `drawn` values at this point under the truncated normal, but for a constant. */
  readonly logDensity: number;
}

/** Tails are cut off here, where quantiles run away. */
const leastTail = 1e-10;

/**
 * Points spread evenly through a normal distribution cut off below 0: its last `drawn` values, each given those after it
 * (A. Genz 1992, Journal of Computational and Graphical Statistics 1:141-149, for the chain of truncated normals); the
 * values before follow at their conditional means. Even spread is by the Kronecker sequence of the powers of the root of
 * x^(d+1) = x + 1 (H. Niederreiter 1992, Random Number Generation and Quasi-Monte Carlo Methods, chapter 3; the root for
 * evenness in d dimensions from memory), so the points are the same on every run.
 */
export function truncatedNormalPoints(
  { mean, factor }: NormalByPrecision,
  drawn: number,
  count: number,
): Point[] {
  const size = mean.length;
  const root = evenRoot(drawn);
  return Array.from({ length: count }, (_, k) => {
    const values = [...mean];
    let logDensity = 0;
    for (let i = size - 1; i >= 0; i--) {
      let middle = mean[i]!;
      for (let later = i + 1; later < size; later++)
        middle -= (factor[later]![i]! * (values[later]! - mean[later]!)) / factor[i]![i]!;
      values[i] = middle;
      const place = size - 1 - i;
      if (place >= drawn) continue;
      const sd = 1 / factor[i]![i]!;
      const below = normalCdf(-middle / sd);
      const share = (0.5 + (k + 1) * root ** -(place + 1)) % 1;
      const standard = normalQuantile(clamped(below + share * (1 - below)));
      values[i] = Math.max(0, middle + sd * standard);
      logDensity -= standard ** 2 / 2 + Math.log(Math.max(leastTail, 1 - below));
    }
    return { values, logDensity };
  });
}

/** Cholesky factor of a small symmetric matrix; null where it is not positive definite. */
export function choleskyFactor(matrix: readonly (readonly number[])[]): number[][] | null {
  const factor = matrix.map((row) => row.map(() => 0));
  for (const [i, row] of factor.entries()) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= row[k]! * factor[j]![k]!;
      if (i === j && !(rest > 1e-12 * matrix[i]![i]!)) return null;
      row[j] = i === j ? Math.sqrt(rest) : rest / factor[j]![j]!;
    }
  }
  return factor;
}

/** Solves LL'x = b. */
export function solveByFactor(factor: readonly (readonly number[])[], b: readonly number[]): number[] {
  const x = [...b];
  for (let i = 0; i < x.length; i++) {
    for (let k = 0; k < i; k++) x[i] = x[i]! - factor[i]![k]! * x[k]!;
    x[i] = x[i]! / factor[i]![i]!;
  }
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i] = x[i]! - factor[k]![i]! * x[k]!;
    x[i] = x[i]! / factor[i]![i]!;
  }
  return x;
}

const clamped = (share: number): number => Math.min(1 - leastTail, Math.max(leastTail, share));

function evenRoot(dimensions: number): number {
  let root = 2;
  for (let round = 0; round < 60; round++) root = (1 + root) ** (1 / (dimensions + 1));
  return root;
}

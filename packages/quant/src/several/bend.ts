import { symmetricEigen } from '../dense/symmetric-eigen.ts';
import { nearestCorrelation } from './nearest-correlation.ts';

/** A covariance matrix that was made positive definite. */
export interface BentMatrix {
  /** Row by row. */
  readonly matrix: Float64Array;
  /** Whether it had to be changed. */
  readonly changed: boolean;
  /** The largest change of a correlation. */
  readonly largestChange: number;
}

/**
 * Makes a covariance matrix that was put together from pairs positive definite: variances stay as they are, correlations
 * become those of the nearest correlation matrix (Higham 2002) with eigenvalues of at least `least`. A matrix that
 * is so already stays as it is. Elements without variance stay without covariance.
 *
 * @param matrix symmetric, size × size row by row, no negative variance
 * @throws RangeError for a negative variance
 */
export function bend(matrix: ArrayLike<number>, size: number, least = 1e-3): BentMatrix {
  const bent = Float64Array.from(matrix);
  const among: number[] = [];
  for (let i = 0; i < size; i++) {
    const variance = bent[i * size + i]!;
    if (!(variance >= 0)) throw new RangeError(`bend: the variance of element ${i} is ${variance}`);
    if (variance > 0) among.push(i);
  }
  const n = among.length;
  const sd = among.map((i) => Math.sqrt(bent[i * size + i]!));
  const correlations = new Float64Array(n * n);
  among.forEach((i, a) => {
    among.forEach((j, b) => {
      correlations[a * n + b] = a === b ? 1 : bent[i * size + j]! / (sd[a]! * sd[b]!);
    });
  });
  if (symmetricEigen(correlations, n).values.every((value) => value >= least)) {
    return { matrix: bent, changed: false, largestChange: 0 };
  }
  const nearest = nearestCorrelation(correlations, n, least);
  let largestChange = 0;
  among.forEach((i, a) => {
    among.forEach((j, b) => {
      const correlation = nearest[a * n + b]!;
      largestChange = Math.max(largestChange, Math.abs(correlation - correlations[a * n + b]!));
      if (a !== b) bent[i * size + j] = correlation * sd[a]! * sd[b]!;
    });
  });
  return { matrix: bent, changed: true, largestChange };
}

import { denseInverse } from '../sparse/dense-reference.ts';

/**
 * REML log-likelihood from its definition, -½ [(n - p) log 2π + log|V| + log|X'V⁻¹X| + y'Py], by dense matrices; also
 * the generalised least-squares estimates. For tests only.
 */
export function denseReml(
  x: readonly (readonly number[])[],
  v: readonly (readonly number[])[],
  y: readonly number[],
): { logLikelihood: number; fixed: number[]; fixedCovariance: number[][]; weighted: number[] } {
  const n = y.length;
  const p = x[0]!.length;
  const { inverse, logDeterminant } = denseInverse(v);
  const vx = inverse.map((row) =>
    x[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * x[k]![j]!, 0)),
  );
  const vy = inverse.map((row) => row.reduce((sum, value, k) => sum + value * y[k]!, 0));
  const gram = x[0]!.map((_, i) =>
    x[0]!.map((__, j) => x.reduce((sum, row, k) => sum + row[i]! * vx[k]![j]!, 0)),
  );
  const { inverse: fixedCovariance, logDeterminant: logGram } = denseInverse(gram);
  const right = x[0]!.map((_, i) => x.reduce((sum, row, k) => sum + row[i]! * vy[k]!, 0));
  const fixed = fixedCovariance.map((row) => row.reduce((sum, value, k) => sum + value * right[k]!, 0));
  // P y = V⁻¹ (y - X b)
  const weighted = vy.map((value, k) => value - vx[k]!.reduce((sum, entry, j) => sum + entry * fixed[j]!, 0));
  const quadratic = y.reduce((sum, value, k) => sum + value * weighted[k]!, 0);
  const logLikelihood = -0.5 * ((n - p) * Math.log(2 * Math.PI) + logDeterminant + logGram + quadratic);
  return { logLikelihood, fixed, fixedCovariance, weighted };
}

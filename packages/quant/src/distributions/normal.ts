import { erfc } from './erfc.ts';

/**
 * Standard normal distribution function, the chance that Z is at most z.
 *
 * Φ(z) = erfc(-z / √2) / 2. Relative error below 2e-15 for z > -5, growing like z² × 1e-16 down to z = -37, where the value
 * leaves the range of double precision; NaN for NaN.
 */
export function normalCdf(z: number): number {
  return 0.5 * erfc(-z * Math.SQRT1_2);
}

/** Standard normal density. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/**
 * Quantile of the standard normal distribution: z with Φ(z) = p.
 *
 * Routine PPND16 of M. J. Wichura 1988, Algorithm AS 241, Applied Statistics 37:477-484. Relative error about 1e-16
 * for min(p, 1 - p) from 1e-316; p = 0 and 1 give -Infinity and Infinity, anything outside NaN.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return q * ratio(CENTRE, r);
  }
  const tail = q < 0 ? p : 1 - p;
  if (tail === 0) return q < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-Math.log(tail));
  const z = r <= 5 ? ratio(MIDDLE, r - 1.6) : ratio(FAR, r - 5);
  return q < 0 ? -z : z;
}

/** Coefficients of a rational function, from the constant up. */
interface Rational {
  readonly top: readonly number[];
  readonly bottom: readonly number[];
}

// The printed coefficients, rounded to the nearest double.
const CENTRE: Rational = {
  top: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987,
    67265.7709270087, 33430.57558358813, 2509.0809287301227,
  ],
  bottom: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
};

const MIDDLE: Rational = {
  top: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  bottom: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
};

const FAR: Rational = {
  top: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  bottom: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
    1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
  ],
};

function ratio(f: Rational, x: number): number {
  return horner(f.top, x) / horner(f.bottom, x);
}

function horner(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

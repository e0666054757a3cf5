/** Nodes x and weights w such that ∫ exp(−x²) f(x) dx ≈ Σ w f(x), exact for polynomials of degree 2n − 1. */
export interface Quadrature {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Gauss-Hermite quadrature by Newton's method on the orthonormal Hermite polynomials, each root searched beyond those found
 * before, with the roots divided out (Abramowitz & Stegun 1964, 25.4.46; Golub & Welsch 1969, Mathematics of Computation
 * 23:221-230, for the weights).
 */
export function gaussHermite(count: number): Quadrature {
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const found: number[] = [];
  // The largest root lies below √(2n + 1); from there each next one is met first.
  let x = Math.sqrt(2 * count + 1);
  for (let k = 0; k < count; k++) {
    for (let round = 0; round < 200; round++) {
      const { value, slope } = hermite(count, x);
      const divided = found.reduce((sum, root) => sum + 1 / (x - root), 0);
      const step = value / (slope - value * divided);
      x -= step;
      if (Math.abs(step) < 1e-15 * Math.max(1, Math.abs(x))) break;
    }
    const { below } = hermite(count, x);
    nodes[k] = x;
    weights[k] = 1 / (count * below * below);
    found.push(x);
    x -= 1e-3;
  }
  return { nodes, weights };
}

/** The orthonormal Hermite polynomial of degree n, the one below it, and the slope of the first. */
function hermite(n: number, x: number): { value: number; below: number; slope: number } {
  let below = 0;
  let value = Math.PI ** -0.25;
  for (let k = 1; k <= n; k++) {
    const next = x * Math.sqrt(2 / k) * value - Math.sqrt((k - 1) / k) * below;
    below = value;
    value = next;
  }
  return { value, below, slope: Math.sqrt(2 * n) * below };
}

import { normalCdf, normalDensity, normalQuantile } from './normal.ts';

/** Φ(high) − Φ(low), exact in either tail; 0 where high ≤ low. */
export function intervalChance(low: number, high: number): number {
  if (!(high > low)) return 0;
  return low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
}

/** The standard normal value that has the given share of the chance of the interval below it. */
export function quantileWithin(low: number, high: number, share: number): number {
  const z =
    low > 0
      ? -normalQuantile(normalCdf(-high) + (1 - share) * intervalChance(low, high))
      : normalQuantile(normalCdf(low) + share * intervalChance(low, high));
  return Math.min(high, Math.max(low, z));
}

/** Mean of a standard normal value that is known to lie in the interval. */
export function meanWithin(low: number, high: number): number {
  const chance = intervalChance(low, high);
  if (chance > 0) return (normalDensity(low) - normalDensity(high)) / chance;
  return Math.abs(low) < Math.abs(high) ? low : high;
}

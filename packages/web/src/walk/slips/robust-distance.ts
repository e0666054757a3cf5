/** The median of at least one value. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)]!;
  return sorted.length % 2 === 1 ? upper : (sorted[sorted.length / 2 - 1]! + upper) / 2;
}

/**
 * How far a value lies from others: the modified z-score 0.6745 (x − median) / MAD, MAD the median of the distances
 * from the median. Where half of the others agree the MAD is 0, and (x − median) / (1.253314 × mean distance) takes
 * its place. Infinite where all others agree and this one does not.
 * Source: Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers, who take values beyond 3.5 as outlying; the
 * second form from memory, as in the handbooks of statistical programs.
 */
export function modifiedZ(value: number, others: readonly number[]): number {
  const middle = median(others);
  const distances = others.map((other) => Math.abs(other - middle));
  const mad = median(distances);
  if (mad > 0) return (0.6745 * (value - middle)) / mad;
  const mean = distances.reduce((sum, distance) => sum + distance, 0) / distances.length;
  if (mean > 0) return (value - middle) / (1.253314 * mean);
  return value === middle ? 0 : Math.sign(value - middle) * Number.POSITIVE_INFINITY;
}

/** Beyond this a value is asked about (Iglewicz & Hoaglin 1993). */
export const farOff = 3.5;

import { halfOf80 } from '../half-of-80.ts';
import { gaussHermite } from './gauss-hermite.ts';
import { type LogitFit, logistic } from './logit-by-group.ts';

/** A chance to come through a winter, with its 80% range. */
export interface WinterChance {
  readonly chance: number;
  readonly low: number;
  readonly high: number;
}

/** The chance at these columns of a genet with this effect; the errors of both are joined as if independent. */
export function chanceOf(
  fit: LogitFit,
  columns: readonly number[],
  effect: number,
  error: number,
): WinterChance {
  const half = halfOf80 * Math.sqrt(error ** 2 + varianceOf(fit, columns));
  const odds = effect + sumOf(fit, columns);
  return { chance: logistic(odds), low: logistic(odds - half), high: logistic(odds + half) };
}

const { nodes, weights } = gaussHermite(15);

/**
 * The mean chance over plants with these columns and over the genets that they may be: what share of them comes through.
 * Its range is normal on the scale of log-odds, by the delta method on the coefficients.
 *
 * @param plants columns of plants that are alike, and their share; shares sum to 1
 */
export function meanChance(
  fit: LogitFit,
  plants: readonly { readonly columns: readonly number[]; readonly share: number }[],
): WinterChance {
  let chance = 0;
  const slope = new Array<number>(fit.coefficients.length).fill(0);
  for (const { columns, share } of plants) {
    const odds = sumOf(fit, columns);
    for (const [k, node] of nodes.entries()) {
      const part = (share * weights[k]!) / Math.sqrt(Math.PI);
      const own = logistic(odds + Math.SQRT2 * fit.spread * node);
      chance += part * own;
      for (const [c, value] of columns.entries()) slope[c] = slope[c]! + part * own * (1 - own) * value;
    }
  }
  const half = (halfOf80 * Math.sqrt(varianceOf(fit, slope))) / (chance * (1 - chance));
  const odds = Math.log(chance / (1 - chance));
  return { chance, low: logistic(odds - half), high: logistic(odds + half) };
}

const sumOf = ({ coefficients }: LogitFit, columns: readonly number[]): number =>
  columns.reduce((sum, value, c) => sum + value * coefficients[c]!, 0);

function varianceOf({ covariance }: LogitFit, columns: readonly number[]): number {
  const width = columns.length;
  let variance = 0;
  for (let r = 0; r < width; r++)
    for (let c = 0; c < width; c++) variance += columns[r]! * columns[c]! * covariance[r * width + c]!;
  return variance;
}

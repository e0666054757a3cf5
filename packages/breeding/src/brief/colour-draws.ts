import type { Random } from '@keelrow/quant';
import { colourDifference } from '../colour/index.ts';
import type { JointValue } from '../evaluation/index.ts';
import type { Lab } from '../facts/index.ts';

/** Draws for chances of colours: the chance has a standard error of at most half over the root of this, 0.8%. */
export const drawCount = 4000;

/** Standard normal numbers, one set for all genets, so that genets with like estimates get like chances. */
export function standardDraws(dimensions: number, random: Random): Float64Array {
  const drawn = new Float64Array(drawCount * dimensions);
  for (let i = 0; i < drawn.length; i++) drawn[i] = random.normal();
  return drawn;
}

/**
 * Joint draws of a genet's true values, draw by draw: mean + root × standard normal numbers, of each of the covariances that
 * may be true in turn. root: lower triangular with root root' = covariance; rows of elements without variance are 0.
 */
export function jointDraws({ each }: JointValue, standard: Float64Array, into: Float64Array): void {
  const m = each[0]!.mean.length;
  const roots = each.map(({ covariance }) => triangularRoot(covariance, m));
  for (let start = 0, draw = 0; start < into.length; start += m, draw++) {
    const { mean } = each[draw % each.length]!;
    const root = roots[draw % each.length]!;
    for (let i = 0; i < m; i++) {
      let value = mean[i]!;
      for (let k = 0; k <= i; k++) value += root[i * m + k]! * standard[start + k]!;
      into[start + i] = value;
    }
  }
}

/** Share of an element's variance that rounding may leave where others determine it. */
const rounding = 1e-12;

/** Cholesky's root of a positive semidefinite matrix; a pivot that vanishes leaves its column 0. */
function triangularRoot(matrix: Float64Array, m: number): Float64Array {
  const root = new Float64Array(m * m);
  for (let j = 0; j < m; j++) {
    let pivot = matrix[j * m + j]!;
    for (let k = 0; k < j; k++) pivot -= root[j * m + k]! ** 2;
    if (pivot <= rounding * matrix[j * m + j]!) continue;
    root[j * m + j] = Math.sqrt(pivot);
    for (let i = j + 1; i < m; i++) {
      let sum = matrix[i * m + j]!;
      for (let k = 0; k < j; k++) sum -= root[i * m + k]! * root[j * m + k]!;
      root[i * m + j] = sum / root[j * m + j]!;
    }
  }
  return root;
}

/** CIEDE2000 of each draw's colour from the wanted one; L* stays within 0 to 100. */
export function distancesFrom(
  wanted: Lab,
  draws: Float64Array,
  dimensions: number,
  [atL, atA, atB]: readonly [number, number, number],
): Float64Array {
  const distances = new Float64Array(drawCount);
  for (let draw = 0; draw < drawCount; draw++) {
    const start = draw * dimensions;
    const l = Math.min(100, Math.max(0, draws[start + atL]!));
    distances[draw] = colourDifference(wanted, { l, a: draws[start + atA]!, b: draws[start + atB]! }).total;
  }
  return distances;
}

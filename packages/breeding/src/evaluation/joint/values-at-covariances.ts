import { type Covariances, solveSeveral, type TraitTable } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import { partsOfGenet } from './joint-covariances.ts';
import { grownLevel } from './joint-level.ts';
import type { JointControl, NormalValue } from './joint-values.ts';

/**
 * True values of genets on lines solved together at given covariances: level and effects with their error covariances (C. R.
 * Henderson and R. L. Quaas 1976, Journal of Animal Science 43:1188-1197). Of a genet that has no estimate: the level, with the
 * spread of genets.
 *
 * @throws ModelError where the equations cannot be solved; FitCancelledError when stopped
 */
export function valuesAtCovariances(
  lines: readonly Evaluation[],
  tables: readonly TraitTable[],
  matrices: Covariances,
  control: JointControl,
): (genet: string) => NormalValue {
  const n = lines.length;
  const known = partsOfGenet.filter((term) => matrices.has(term));
  const solved = solveSeveral(tables, matrices, known, {
    ...(control.isCancelled ? { isCancelled: control.isCancelled } : {}),
  });
  const level = lines.map((line, t) => grownLevel(line, tables[t]!.model.random).effects);
  const sums = solved.sumsOfLevels(known, level);
  const placeOf = new Map(sums.levels.map((genet, place) => [genet, place]));
  const common = solved.combine(level);
  const slopes = solved.combine(
    lines.map(({ depression }) => (depression ? [{ term: 'inbreeding', level: null, weight: 1 }] : [])),
  );
  const stranger = common.covariance.map((value, e) =>
    known.reduce((sum, term) => sum + matrices.get(term)![e]!, value),
  );
  return (genet) => {
    const place = placeOf.get(genet);
    if (place === undefined) return { mean: common.estimates, covariance: stranger };
    const mean = sums.estimates.slice(place * n, (place + 1) * n);
    const covariance = sums.covariances.slice(place * n * n, (place + 1) * n * n);
    // The slope on inbreeding is a fixed one; its error is added as if independent of the rest.
    for (const [t, { depression, kin }] of lines.entries()) {
      const f = depression && kin?.kinship.indexOf(genet) !== undefined ? depression.inbreeding(genet) : 0;
      mean[t] = mean[t]! + f * slopes.estimates[t]!;
      covariance[t * n + t] = covariance[t * n + t]! + f * f * slopes.covariance[t * n + t]!;
    }
    return { mean, covariance };
  };
}

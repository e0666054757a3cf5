import { seededRandom } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import type { BestOf } from '../report.ts';
import { valueDraws } from './draw-values.ts';

const mostDraws = 4000;
/** About so many random numbers are drawn in all, so that a large garden takes seconds too. */
const effort = 2e7;

/**
 * The chance of each listed genet to be among the k that truly are best, from seeded joint draws of all true values given
 * the notes, the covariances of their errors included. A chance of a half has an error of ½/√draws.
 *
 * @param wanted 'less' where less of the trait is better
 */
export function bestOf(evaluation: Evaluation, k: number, wanted: string | null): BestOf {
  const { fitted, listed } = evaluation;
  const drawInto = valueDraws(evaluation);
  const random = seededRandom(`the best ${k}`);
  const draws = Math.max(200, Math.min(mostDraws, Math.floor(effort / fitted.result.effects.length)));
  const among = Math.min(k, listed.length);
  const times = new Float64Array(listed.length);
  const sign = wanted === 'less' ? -1 : 1;
  const values = new Float64Array(listed.length);
  for (let draw = 0; draw < draws; draw++) {
    drawInto(random, values);
    const order = Array.from(values.keys()).sort((a, b) => sign * (values[b]! - values[a]!));
    for (const index of order.slice(0, among)) times[index] = times[index]! + 1;
  }
  return {
    k: among,
    draws,
    chances: listed
      .map((id, index) => ({ id, chance: times[index]! / draws }))
      .sort((a, b) => b.chance - a.chance || (a.id < b.id ? -1 : 1)),
  };
}

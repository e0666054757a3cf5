import { seededRandom } from '@keelrow/quant';
import type { Evaluation } from './estimate.ts';
import type { BestOf } from './report.ts';

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
  const { fitted, listed, model, notedGenets } = evaluation;
  const { effects, variances } = fitted.result;
  const place = new Map(listed.map((genet, index) => [genet, index]));
  const adds = effects.flatMap(({ term, level }, at) => {
    const index = term === 'additive' || term === 'genet' ? place.get(level) : undefined;
    return index === undefined ? [] : [{ at, index }];
  });
  const beyond = model.random.includes('genet')
    ? Math.sqrt(variances.find(({ term }) => term === 'genet')?.estimate ?? 0)
    : 0;
  const unseen = listed.flatMap((genet, index) => (notedGenets.has(genet) ? [] : [index]));
  const random = seededRandom(`the best ${k}`);
  const draws = Math.max(200, Math.min(mostDraws, Math.floor(effort / effects.length)));
  const among = Math.min(k, listed.length);
  const times = new Float64Array(listed.length);
  const sign = wanted === 'less' ? -1 : 1;
  const values = new Float64Array(listed.length);
  for (let draw = 0; draw < draws; draw++) {
    values.fill(0);
    const drawn = fitted.drawEffects(random);
    for (const { at, index } of adds) values[index] = values[index]! + sign * drawn[at]!;
    for (const index of unseen) values[index] = values[index]! + random.normal(0, beyond);
    const order = Array.from(values.keys()).sort((a, b) => values[b]! - values[a]!);
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

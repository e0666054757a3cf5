import type { Random } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import { valueParts } from '../value-parts.ts';
import { atEachFit } from '../variances-in-doubt/at-each-fit.ts';

/** Fills in a joint draw of the true values of all listed genets, in their order, up to one constant. */
export type DrawValues = (random: Random, values: Float64Array) => void;

/** Joint draws given the notes, errors of all estimates and the doubt about the variances included. */
export function valueDraws(evaluation: Evaluation): DrawValues {
  const at = atEachFit(evaluation, drawsAtFit);
  return (random, values) => {
    let left = random.uniform();
    const chosen = at.find(({ chance }) => {
      left -= chance;
      return left < 0;
    });
    (chosen ?? at.at(-1)!).told(random, values);
  };
}

function drawsAtFit(evaluation: Evaluation): DrawValues {
  const { fitted, listed, depression } = evaluation;
  const place = new Map(
    fitted.result.effects.map(({ term, level }, index) => [JSON.stringify([term, level]), index]),
  );
  const adds: { at: number; index: number }[] = [];
  const unseen: { index: number; sd: number }[] = [];
  for (const part of valueParts(evaluation)) {
    for (const [index, genet] of listed.entries()) {
      const effect = part.effectOf(genet, 1);
      if (effect) adds.push({ at: place.get(JSON.stringify([effect.term, effect.level]))!, index });
      else unseen.push({ index, sd: Math.sqrt(part.own(genet)) });
    }
  }
  const known = listed.map((genet) => (depression ? depression.slope * depression.inbreeding(genet) : 0));
  return (random, values) => {
    values.set(known);
    const drawn = fitted.drawEffects(random);
    for (const { at, index } of adds) values[index] = values[index]! + drawn[at]!;
    for (const { index, sd } of unseen) values[index] = values[index]! + random.normal(0, sd);
  };
}

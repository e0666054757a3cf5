import type { Random } from '@keelrow/quant';
import type { PlantValue } from '../growth/plant-year.ts';
import type { Observer } from '../scenario/people.ts';
import { withinLimits } from '../scenario/traits.ts';
import type { Chances } from './attention.ts';

/** What is taken as a number, on which round, how often, and by which kind of reading. */
export interface Measure {
  readonly trait: PlantValue;
  readonly reading: 'length' | 'count' | 'score';
  readonly round: 'measuring' | 'late summer';
  readonly often: keyof Chances;
}

const measure = (
  trait: PlantValue,
  reading: Measure['reading'],
  often: Measure['often'],
  round: Measure['round'] = 'measuring',
): Measure => ({ trait, reading, round, often });

export const measures: readonly Measure[] = [
  measure('spike-count', 'count', 'size'),
  measure('spike-length', 'length', 'size'),
  measure('height', 'length', 'size'),
  measure('florets-per-spike', 'count', 'seldom'),
  measure('foliage-height', 'length', 'score'),
  measure('width', 'length', 'score'),
  measure('bare-stem', 'length', 'seldom'),
  measure('spike-angle', 'length', 'seldom'),
  measure('side-spikes', 'count', 'seldom'),
  measure('lodging', 'score', 'score'),
  measure('leaf-spot', 'score', 'score', 'late summer'),
  measure('mildew', 'score', 'seldom', 'late summer'),
  measure('crown-buds', 'count', 'seldom', 'late summer'),
];

/** What a person reads where `value` is: with the person's bias, scatter and rounding, within the trait's limits. */
export function reading(
  { trait, reading: sort }: Pick<Measure, 'trait' | 'reading'>,
  value: number,
  by: Observer,
  random: Random,
): number {
  switch (sort) {
    case 'length': {
      const seen = value * by.lengthBias * Math.exp(random.normal(0, 0.022 * by.scatter));
      return withinLimits(trait, Math.round(seen / by.roundsTo) * by.roundsTo);
    }
    case 'count':
      // Few are counted right; many are counted to within some per cent.
      return withinLimits(
        trait,
        Math.max(0, Math.round(value * Math.exp(random.normal(0, 0.025 * by.scatter)))),
      );
    case 'score':
      return withinLimits(trait, Math.round(value + by.scoreBias + random.normal(0, 0.4 * by.scatter)));
  }
}

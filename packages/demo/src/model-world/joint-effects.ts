import type { Random } from '@keelrow/quant';
import type { ModelTrait } from './model-garden.ts';

type Level = keyof ModelTrait['variances'];

/** Draws of an effect for all traits at once, with the variances of a level of the model and its correlation. */
export type EffectDraw = (random: Random, level: Level, share?: number) => number[];

/**
 * Normal effects with the same correlation r ≥ 0 between any two traits: √r of a shared draw and √(1 − r) of an own one,
 * the shared draw taken with the other sign where a trait is opposed.
 * `share` scales the variance, as the Mendelian share does for additive effects.
 */
export function effectDraw(traits: readonly ModelTrait[], correlation: number): EffectDraw {
  if (!(correlation >= 0 && correlation <= 1)) {
    throw new RangeError(`correlation must lie between 0 and 1, got ${correlation}`);
  }
  return (random, level, share = 1) => {
    const shared = random.normal(0, Math.sqrt(correlation));
    return traits.map(
      ({ variances, opposed }) =>
        Math.sqrt(share * variances[level]) *
        ((opposed ? -shared : shared) + random.normal(0, Math.sqrt(1 - correlation))),
    );
  };
}

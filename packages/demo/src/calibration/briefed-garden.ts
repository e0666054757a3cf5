import { seededRandom } from '@keelrow/quant';
import type { ModelWorldOptions } from '../model-world/index.ts';
import { modelTraits } from './model-traits.ts';

/** What is believed of correlations before any note: normal on Fisher's scale around 0 (docs/methods/briefs.md). */
const usualZ = 0.5;

/**
 * A small garden of the model world whose traits go together, for briefs on several traits. How closely, and which go against
 * which, is drawn anew for each garden as the sums believe of correlations before any note: chances that take account of such
 * a belief can be right on average over the correlations that there may be, and not for any one of them.
 */
export function briefedGarden(seed: number): ModelWorldOptions {
  const random = seededRandom('briefed garden').fork(String(seed));
  return {
    seed,
    traits: modelTraits.map((trait) => ({ ...trait, opposed: random.uniform() < 0.5 })),
    correlation: Math.abs(Math.tanh(random.normal(0, usualZ))),
    seedlings: 100,
  };
}

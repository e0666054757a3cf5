import type { Layout } from './layout.ts';

/** Levels or occasions that both traits must have for a correlation to be estimated from them. */
const FEWEST_SHARED = 3;

/**
 * Why the rows cannot tell the correlation of two traits in the component numbered c, null where they may: too few levels of
 * an independent term have rows of both, or too few occasions do. Levels with a known covariance tell by their kin.
 */
export function untoldCorrelation(layout: Layout, c: number): string | null {
  const term = layout.terms[c];
  if (!term) {
    const { patterns, counts } = layout.occasions;
    const shared = counts[patterns.findIndex((traits) => traits.length === 2)] ?? 0;
    if (shared >= FEWEST_SHARED) return null;
    const few =
      shared === 0 ? 'no common occasion' : `only ${shared} common occasion${shared === 1 ? '' : 's'}`;
    return `held at 0: the traits were noted on ${few}`;
  }
  if (!term.independent) return null;
  const [first, second] = term.places.map((places) => new Set(places));
  let shared = 0;
  for (const level of first!) if (second!.has(level)) shared++;
  if (shared >= FEWEST_SHARED) return null;
  const few = shared === 0 ? 'no level' : `only ${shared} level${shared === 1 ? '' : 's'}`;
  return `held at 0: ${few} of "${term.name}" ${shared > 1 ? 'have' : 'has'} both traits`;
}

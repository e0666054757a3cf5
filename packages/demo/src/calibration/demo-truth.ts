import type { TraitNote } from '@keelrow/breeding/evaluation';
import { dayOfYear } from '@keelrow/breeding/facts';
import type { CharacterName } from '../genetics/characters.ts';
import type { GardenTruth } from '../truth/truth.ts';
import type { Truth } from './points-of-evaluation.ts';

/** Traits of the demo garden that estimates are held against: those whose values grow with the plant, and steady ones. */
const growingTraits = [
  'height',
  'spike-length',
  'spike-count',
  'width',
  'foliage-height',
  'florets-per-spike',
] as const;
const steadyTraits = ['lodging', 'leaf-spot', 'spike-angle'] as const;
export const demoTraits = [...growingTraits, ...steadyTraits, 'first-flower'] as const;
export type DemoTrait = (typeof demoTraits)[number];

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * True values of the demo garden on the scale of the notes. For a growing trait that is the genetic value times one
 * factor for the garden, which brings the fourth season to the average noted plant: the mean of the notes over the mean of
 * the true values of their genets. For first flower it is the genet's day, averaged over the years noted; what parents
 * hand on there is a need of warmth and no day, so it has no additive value in days.
 *
 * @param codeOf code of a genet by its id; null where it has none
 */
export function truthOfDemo(
  trait: DemoTrait,
  notes: readonly TraitNote[],
  codeOf: (genet: string) => string | null,
  truth: GardenTruth,
): Truth {
  const generationOf = generations(truth);
  const byId =
    <T>(of: (code: string) => T) =>
    (genet: string): T | null => {
      const code = codeOf(genet);
      return code === null ? null : of(code);
    };
  const generation = (genet: string) => byId(generationOf)(genet) ?? 0;
  if (trait === 'first-flower') {
    const years = [...new Set(notes.map(({ year }) => year))];
    const day = (code: string) => {
      const days = years.flatMap((year) => truth.stageDay(code, 'first-flower', year) ?? []).map(dayOfYear);
      return days.length === years.length ? mean(days) : null;
    };
    return { total: byId(day), additive: () => null, generationOf: generation };
  }
  const character: CharacterName = trait;
  const total = byId((code) => truth.total(code, character));
  const grows = growingTraits.some((name) => name === trait);
  const factor = grows
    ? mean(notes.map(({ value }) => value)) / mean(notes.flatMap(({ genet }) => total(genet) ?? []))
    : 1;
  return {
    total: byId((code) => factor * truth.total(code, character)),
    additive: byId((code) => factor * truth.additive(code, character)),
    generationOf: generation,
  };
}

/** Founders are generation 0, others one more than their later parent; a sport is of its source's. */
function generations({ genets }: GardenTruth): (code: string) => number {
  const known = new Map<string, number>();
  const of = (code: string): number => {
    const found = known.get(code);
    if (found !== undefined) return found;
    const { seedParent, pollenParent, cloneOf } = genets.get(code)!;
    const parents = [seedParent, pollenParent].filter((parent) => parent !== null);
    const generation =
      cloneOf !== null ? of(cloneOf) : parents.length === 0 ? 0 : 1 + Math.max(...parents.map(of));
    known.set(code, generation);
    return generation;
  };
  return of;
}

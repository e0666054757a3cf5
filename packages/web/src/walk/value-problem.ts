import { keptAs, measureOf, type NoteValue, type Units, valueProblem } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';

const hundredth = (number: number): number => Number(number.toFixed(2));

/** What is wrong with a stored value for its trait, in the units shown; null if nothing is. */
export function problemInShown(trait: TraitShown, value: NoteValue, units: Units): string | null {
  const problem = valueProblem(trait, value);
  if (problem === null || keptAs[trait.sort] !== 'number' || typeof value !== 'number') return problem;
  const { unit, toShown } = measureOf(trait.unit, units);
  const shown = (stored: number | null): number | null =>
    stored === null ? null : hundredth(toShown(stored));
  const rule = { ...trait, unit, least: shown(trait.least), most: shown(trait.most) };
  return valueProblem(rule, trait.sort === 'counted' ? toShown(value) : hundredth(toShown(value))) ?? problem;
}

import { beyondTrait } from '@keelrow/breeding/brief';
import type { AnyRow } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import type { Units } from '../parts/measure.ts';
import { limitInWords } from './limit-words.ts';
import { limitOf } from './limits.ts';

/** What is said of a limit that is being typed and lies beyond what its trait can be; null where it is of use. */
export function beyondInForm(row: AnyRow, trait: TraitShown, units: Units): string | null {
  const limit = limitOf({ ...row, id: '' });
  if (limit.atLeast === null && limit.atMost === null) return null;
  const asked = {
    low: limit.atLeast ?? Number.NEGATIVE_INFINITY,
    high: limit.atMost ?? Number.POSITIVE_INFINITY,
    words: `${trait.name} ${limitInWords(limit, trait, units)}`,
    trait,
  };
  return beyondTrait(asked, units)?.why ?? null;
}

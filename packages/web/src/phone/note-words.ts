import type { NoteCell, TraitShown } from '@keelrow/server/contract';
import { showEntry } from '../notes/entry.ts';
import { measureOf, type Units } from '../parts/measure.ts';

/** A note in words for lists: `2031-004-3/1 Height 92 cm`. */
export function noteWords(
  plantCode: string,
  trait: TraitShown,
  entry: Pick<NoteCell, 'state' | 'value'>,
  units: Units,
): string {
  const unit = typeof entry.value === 'number' ? measureOf(trait.unit, units).unit : null;
  return [plantCode, trait.name, showEntry(trait, entry, units), unit].filter(Boolean).join(' ');
}

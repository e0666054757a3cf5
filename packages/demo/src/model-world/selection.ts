import type { TraitNote } from '@keelrow/breeding/evaluation';
import type { DrawnGenet } from './population.ts';

/**
 * Genets, best first, by their notes: the mean over their notes of how far each lies above its season's mean, in the
 * spread of the season, summed over traits and drawn towards 0 where notes are few.
 */
export function rankedByNotes(
  notes: readonly (readonly TraitNote[])[],
  candidates: readonly DrawnGenet[],
): DrawnGenet[] {
  const merit = new Map<string, number>();
  for (const ofTrait of notes) {
    const sums = new Map<string, { sum: number; count: number }>();
    for (const { genet, distance } of distances(ofTrait)) {
      const found = sums.get(genet) ?? { sum: 0, count: 0 };
      sums.set(genet, { sum: found.sum + distance, count: found.count + 1 });
    }
    for (const [genet, { sum, count }] of sums) merit.set(genet, (merit.get(genet) ?? 0) + sum / (count + 1));
  }
  return [...candidates].sort((a, b) => (merit.get(b.id) ?? 0) - (merit.get(a.id) ?? 0));
}

function* distances(notes: readonly TraitNote[]): Generator<{ genet: string; distance: number }> {
  for (const year of new Set(notes.map((note) => note.year))) {
    const season = notes.filter((note) => note.year === year);
    const mean = season.reduce((sum, { value }) => sum + value, 0) / season.length;
    const square = season.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / season.length;
    for (const { genet, value } of season) yield { genet, distance: (value - mean) / Math.sqrt(square) };
  }
}

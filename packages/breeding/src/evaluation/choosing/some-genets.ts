import type { TraitNote } from '../trait-note.ts';

/**
 * Genets, evenly spaced in the order in which they were first noted, that together have about so many notes: a smaller
 * garden for choices that need no more. All of them where the notes are fewer. The same at every run.
 */
export function someGenets(notes: readonly TraitNote[], most: number): ReadonlySet<string> {
  const genets = [...new Set(notes.map(({ genet }) => genet))];
  if (notes.length <= most) return new Set(genets);
  const wanted = Math.max(2, Math.floor((genets.length * most) / notes.length));
  return new Set(Array.from({ length: wanted }, (_, k) => genets[Math.floor((k * genets.length) / wanted)]!));
}

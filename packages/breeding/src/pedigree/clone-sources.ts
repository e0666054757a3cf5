import type { PedigreeEntry } from './entry.ts';
import { PedigreeError } from './pedigree-error.ts';
import { refuseLoop } from './refuse-loop.ts';

/** Place of each genet in the list by its name; a genet listed twice is refused. */
export function placesOf(entries: readonly PedigreeEntry[]): Map<string, number> {
  const places = new Map<string, number>();
  for (let i = 0; i < entries.length; i++) {
    const { genet } = entries[i]!;
    places.set(genet, i);
    if (places.size === i + 1) continue;
    const first = entries.findIndex((entry) => entry.genet === genet);
    throw new PedigreeError(`the genet “${genet}” is listed twice`, 'Keep one of the rows', [
      entries[first]!.row,
      entries[i]!.row,
    ]);
  }
  return places;
}

/** For each genet the place of the one that its additive effect is: itself, or of a clone the first source. */
export function cloneSources(
  entries: readonly PedigreeEntry[],
  places: ReadonlyMap<string, number>,
): Int32Array {
  const source = new Int32Array(entries.length);
  const clones: number[] = [];
  for (let i = 0; i < entries.length; i++) {
    source[i] = i;
    if (entries[i]!.cloneOf !== null) clones.push(i);
  }
  for (const i of clones) {
    const { genet, cloneOf, seedParents, pollenParents, row } = entries[i]!;
    if (seedParents.length > 0 || pollenParents.length > 0) {
      throw new PedigreeError(
        `“${genet}” has parents and is a clone of “${cloneOf}” as well`,
        'Leave one of the two empty: a clone has the parents of its source',
        [row],
      );
    }
    const at = places.get(cloneOf!);
    if (at === undefined) {
      throw new PedigreeError(
        `“${cloneOf}”, of which “${genet}” is a clone, is not among the genets`,
        'Add a row for it',
        [row],
      );
    }
    if (at === i)
      throw new PedigreeError(
        `“${genet}” is a clone of itself`,
        'Name the genet that it arose on, or leave it empty',
        [row],
      );
    source[i] = at;
  }
  for (const i of clones) {
    let root = i;
    for (let steps = 0; source[root] !== root; steps++) {
      if (steps > entries.length) refuseLoop(entries);
      root = source[root]!;
    }
    for (let at = i; at !== root; ) {
      const next = source[at]!;
      source[at] = root;
      at = next;
    }
  }
  return source;
}

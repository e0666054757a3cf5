import type { PedigreeEntry } from './entry.ts';
import { findLoop } from './loops.ts';
import { PedigreeError } from './pedigree-error.ts';

const MOST_NAMED = 12;

/** Refuses entries that are known to hold a loop of descent, naming it and its rows. */
export function refuseLoop(entries: readonly PedigreeEntry[]): never {
  const parentsOf = new Map(
    entries.map(({ genet, seedParents, pollenParents, cloneOf }) => [
      genet,
      [
        ...seedParents.map((parent) => parent.genet),
        ...pollenParents.map((parent) => parent.genet).filter((parent) => parent !== 'self'),
        ...(cloneOf === null ? [] : [cloneOf]),
      ],
    ]),
  );
  const loop = findLoop(parentsOf);
  if (loop === null) throw new Error('parentage could not be ordered although it holds no loop');
  const rows = new Map(entries.map(({ genet, row }) => [genet, row]));
  const inLoop = loop.slice(0, -1);
  const shown = (name: string) => `“${name}”`;
  const chain =
    loop.length <= MOST_NAMED
      ? loop.map(shown).join(' ← ')
      : `${loop
          .slice(0, MOST_NAMED - 2)
          .map(shown)
          .join(' ← ')} ← … ← ${shown(loop.at(-1)!)}`;
  throw new PedigreeError(
    inLoop.length === 1 ? `${shown(loop[0]!)} is its own parent` : `a plant is its own ancestor: ${chain}`,
    'Mend the parents in one of these rows; a self is written as “self” under the pollen parent',
    inLoop.map((genet) => rows.get(genet)),
  );
}

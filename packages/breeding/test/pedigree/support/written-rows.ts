import { readParents } from '../../../src/facts/index.ts';
import type { PedigreeEntry } from '../../../src/pedigree/index.ts';

/** Entries from rows as files write them: genet, seed parents, pollen parents. */
export const entriesOf = (rows: readonly (readonly string[])[]): PedigreeEntry[] =>
  rows.map(([genet, seed, pollen]) => {
    const seedParents = readParents(seed!, 'seed');
    const pollenParents = readParents(pollen!, 'pollen');
    if ('problem' in seedParents || 'problem' in pollenParents) throw new Error(`row of ${genet}`);
    return { genet: genet!, seedParents, pollenParents, cloneOf: null, group: null };
  });

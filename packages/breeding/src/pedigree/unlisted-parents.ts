import type { PedigreeEntry } from './entry.ts';

/** Entries with a founder added for each parent or source that is named but has no entry; `added` names these. */
export function withUnlistedParents(entries: readonly PedigreeEntry[]): {
  readonly entries: readonly PedigreeEntry[];
  readonly added: readonly string[];
} {
  const known = new Set(entries.map(({ genet }) => genet));
  const added: PedigreeEntry[] = [];
  const meet = (genet: string) => {
    if (known.has(genet)) return;
    known.add(genet);
    added.push({ genet, seedParents: [], pollenParents: [], cloneOf: null, group: null });
  };
  for (const { seedParents, pollenParents, cloneOf } of entries) {
    for (const { genet } of seedParents) meet(genet);
    for (const { genet } of pollenParents) if (genet !== 'self') meet(genet);
    if (cloneOf !== null) meet(cloneOf);
  }
  return {
    entries: added.length > 0 ? [...entries, ...added] : entries,
    added: added.map(({ genet }) => genet),
  };
}

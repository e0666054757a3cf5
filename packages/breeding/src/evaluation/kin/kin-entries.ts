import { type PedigreeEntry, withUnlistedParents } from '../../pedigree/index.ts';

/** Whom a genet stems from, by its record: its possible parents, or what it is a clone of. */
export function sourcesOf({ seedParents, pollenParents, cloneOf }: PedigreeEntry): string[] {
  const parents = [...seedParents, ...pollenParents].map(({ genet }) => genet).filter((id) => id !== 'self');
  return cloneOf === null ? parents : [cloneOf, ...parents];
}

/**
 * The pedigree of the noted genets: they themselves, all from whom they stem, and all that are linked to them by known
 * parents. The rest of the garden could only be estimated as its average. Noted genets without a row come as founders.
 */
export function entriesOfKin(entries: readonly PedigreeEntry[], noted: ReadonlySet<string>): PedigreeEntry[] {
  const { entries: all } = withUnlistedParents([...entries, ...foundersOf(noted, entries)]);
  const place = new Map(all.map(({ genet }, index) => [genet, index]));
  const linked: number[][] = all.map(() => []);
  const phantoms = new Map<string, number>();
  for (const [index, entry] of all.entries()) {
    for (const source of sourcesOf(entry)) {
      const at = place.get(source)!;
      linked[at]!.push(index);
      linked[index]!.push(at);
    }
    // Genets that share an unknown pollen parent are linked by it.
    const shared = entry.sharedUnknownPollen;
    if (shared == null) continue;
    const first = phantoms.get(shared);
    if (first === undefined) phantoms.set(shared, index);
    else {
      linked[first]!.push(index);
      linked[index]!.push(first);
    }
  }
  const reached = new Uint8Array(all.length);
  const waiting = [...noted].map((genet) => place.get(genet)!);
  for (const index of waiting) reached[index] = 1;
  for (let index = waiting.pop(); index !== undefined; index = waiting.pop()) {
    for (const next of linked[index]!) {
      if (reached[next] === 1) continue;
      reached[next] = 1;
      waiting.push(next);
    }
  }
  return all.filter((_, index) => reached[index] === 1);
}

function foundersOf(noted: ReadonlySet<string>, entries: readonly PedigreeEntry[]): PedigreeEntry[] {
  const known = new Set(entries.map(({ genet }) => genet));
  return [...noted]
    .filter((genet) => !known.has(genet))
    .map((genet) => ({ genet, seedParents: [], pollenParents: [], cloneOf: null, group: null }));
}

/** The same for their noted genets and those whom these stem from alone: all that a likelihood depends on. */
export function entriesOfAncestry(
  entries: readonly PedigreeEntry[],
  noted: ReadonlySet<string>,
): PedigreeEntry[] {
  const byGenet = new Map(entries.map((entry) => [entry.genet, entry]));
  const reached = new Set(noted);
  const waiting = [...noted];
  for (let genet = waiting.pop(); genet !== undefined; genet = waiting.pop()) {
    for (const source of sourcesOf(byGenet.get(genet)!)) {
      if (reached.has(source)) continue;
      reached.add(source);
      waiting.push(source);
    }
  }
  return entries.filter(({ genet }) => reached.has(genet));
}

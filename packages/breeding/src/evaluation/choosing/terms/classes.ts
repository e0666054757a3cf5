import type { TraitNote } from '../../trait-note.ts';

/** How often each class occurs. */
export function counted<Class>(classes: Iterable<Class>): Map<Class, number> {
  const counts = new Map<Class, number>();
  for (const each of classes) counts.set(each, (counts.get(each) ?? 0) + 1);
  return counts;
}

/** For each class of one kind, the classes of another kind that it occurs with. */
export function occurringWith<One, Other>(
  one: readonly One[],
  other: readonly Other[],
): Map<One, Set<Other>> {
  const found = new Map<One, Set<Other>>();
  for (const [index, each] of one.entries()) {
    const set = found.get(each);
    if (set) set.add(other[index]!);
    else found.set(each, new Set([other[index]!]));
  }
  return found;
}

/** Number of genets that occur in more than one class. */
export const genetsInSeveral = (notes: readonly TraitNote[], classes: readonly string[]): number =>
  [
    ...occurringWith(
      notes.map(({ genet }) => genet),
      classes,
    ).values(),
  ].filter((set) => set.size > 1).length;

/**
 * Groups of classes of one kind that are linked, directly or in steps, by sharing a class of another kind; largest
 * group first. Two crossed classifications are estimable together within such groups only (Weeks & Williams 1964,
 * A note on the determination of connectedness in an N-way cross classification, Technometrics 6:319-324).
 */
export function linkedGroups(one: readonly string[], other: readonly string[]): string[][] {
  const above = new Map<string, string>();
  const top = (name: string): string => {
    let at = name;
    for (let next = above.get(at)!; next !== at; next = above.get(at)!) {
      above.set(at, above.get(next)!);
      at = next;
    }
    return at;
  };
  for (const each of one) above.set(each, each);
  const firstWith = new Map<string, string>();
  for (const [index, each] of one.entries()) {
    const first = firstWith.get(other[index]!);
    if (first === undefined) firstWith.set(other[index]!, each);
    else above.set(top(each), top(first));
  }
  const groups = new Map<string, string[]>();
  for (const each of new Set(one)) {
    const group = groups.get(top(each));
    if (group) group.push(each);
    else groups.set(top(each), [each]);
  }
  return [...groups.values()].sort((a, b) => b.length - a.length);
}

const mostListed = 4;

/** `A, B and C`; of many the first few. */
export function listed(words: readonly string[]): string {
  if (words.length > mostListed)
    return `${words.slice(0, mostListed).join(', ')} and ${words.length - mostListed} others`;
  return words.length > 1 ? `${words.slice(0, -1).join(', ')} and ${words.at(-1)}` : (words[0] ?? '');
}

/** `1 person`, `3 people`. */
export const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

import fc from 'fast-check';
import type { PedigreeEntry } from '../../../src/pedigree/index.ts';

interface Draw {
  readonly kind: number;
  readonly picks: readonly number[];
  readonly shares: readonly number[];
}

/** Chances that add up to `total`, in the proportions given; picks that name one genet twice are put together. */
function possible(names: readonly string[], shares: readonly number[], total: number) {
  const chances = new Map<string, number>();
  const sum = names.reduce((so, _, k) => so + shares[k]!, 0);
  names.forEach((name, k) => {
    chances.set(name, (chances.get(name) ?? 0) + (shares[k]! / sum) * total);
  });
  return [...chances].map(([genet, chance]) => ({ genet, chance }));
}

function entryOf(n: number, { kind, picks, shares }: Draw): PedigreeEntry {
  const genet = `g${n}`;
  const parent = (k: number) => `g${picks[k]! % n}`;
  const group = ['east', 'west', null, null][picks[5]! % 4]!;
  const bare = { genet, seedParents: [], pollenParents: [], cloneOf: null, group };
  const seed = (k: number) => [{ genet: parent(k), chance: 1 }];
  if (n === 0 || kind === 0) return bare;
  if (kind === 1) return { ...bare, cloneOf: parent(0), group: null };
  if (kind === 2) return { ...bare, seedParents: seed(0), pollenParents: [{ genet: 'self', chance: 1 }] };
  if (kind === 10) return { ...bare, pollenParents: [{ genet: 'self', chance: 0.6 }] };
  if (kind === 3) return { ...bare, seedParents: seed(0) };
  if (kind === 4) return { ...bare, pollenParents: seed(0) };
  if (kind === 5)
    return {
      ...bare,
      group: ['east', null, 'west'][picks[1]! % 3]!,
      seedParents: picks[2]! % 2 ? seed(0) : [],
      pollenParents: [{ genet: 'self', chance: 0.3 }],
      sharedUnknownPollen: `pod ${picks[1]! % 3}`,
    };
  const several = possible([parent(0), parent(1), parent(2), 'self'], shares, kind === 6 ? 1 : 0.8);
  if (kind === 6 || kind === 7) return { ...bare, seedParents: seed(3), pollenParents: several };
  if (kind === 8)
    return {
      ...bare,
      seedParents: possible([parent(3), parent(4)], shares, picks[5]! % 2 ? 1 : 0.7),
      pollenParents: several,
    };
  return { ...bare, seedParents: seed(0), pollenParents: seed(1) };
}

/** Pedigrees with everything in them: founders with and without group, selfs, clones, guessed parents on either side. */
export const randomPedigree: fc.Arbitrary<PedigreeEntry[]> = fc
  .array(
    fc.record({
      kind: fc.integer({ min: 0, max: 12 }),
      picks: fc.array(fc.nat(), { minLength: 6, maxLength: 6 }),
      shares: fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
    }),
    { minLength: 1, maxLength: 45 },
  )
  .map((draws) => draws.map((draw, n) => entryOf(n, draw)));

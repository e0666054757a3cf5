import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import { seededRandom } from '@keelrow/quant';

const founder = (genet: string, group: string | null = null): PedigreeEntry => ({
  genet,
  seedParents: [],
  pollenParents: [],
  cloneOf: null,
  group,
});

const child = (genet: string, seed: string, pollen: string): PedigreeEntry => ({
  ...founder(genet),
  seedParents: [{ genet: seed, chance: 1 }],
  pollenParents: [{ genet: pollen, chance: 1 }],
});

/** Parents P1 … Pn crossed in a ring, so many seedlings each: S1-1, S1-2 … of P1 × P2. */
export function ringOfCrosses(parents: number, seedlings: number): PedigreeEntry[] {
  const names = Array.from({ length: parents }, (_, index) => `P${index + 1}`);
  return [
    ...names.map((name) => founder(name)),
    ...names.flatMap((name, index) =>
      Array.from({ length: seedlings }, (_, k) =>
        child(`S${index + 1}-${k + 1}`, name, names[(index + 1) % parents]!),
      ),
    ),
  ];
}

/** True additive values drawn down a pedigree of known parents, founders with the standard deviation given. */
export function additiveValues(entries: readonly PedigreeEntry[], sd: number, seed = 3): Map<string, number> {
  const random = seededRandom(seed);
  const values = new Map<string, number>();
  for (const { genet, seedParents, pollenParents, cloneOf } of entries) {
    if (cloneOf !== null) {
      values.set(genet, values.get(cloneOf)!);
      continue;
    }
    const [mother, father] = [seedParents[0], pollenParents[0]];
    values.set(
      genet,
      mother && father
        ? (values.get(mother.genet)! + values.get(father.genet === 'self' ? mother.genet : father.genet)!) /
            2 +
            random.normal(0, sd * Math.SQRT1_2)
        : random.normal(0, sd),
    );
  }
  return values;
}

export { child, founder };

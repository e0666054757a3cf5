import { seededRandom } from '@keelrow/quant';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FounderKinship, kinshipOf, type PedigreeEntry } from '../../src/pedigree/index.ts';
import { inverted, writtenOut } from './support/dense.ts';
import { randomPedigree } from './support/random-pedigree.ts';
import { tabularRelationships } from './support/tabular.ts';

const FOUNDERS: (FounderKinship | undefined)[] = [
  undefined,
  { within: 0.4 },
  {
    within: new Map([
      ['east', 1.5],
      ['west', 0.3],
    ]),
    between: [{ groups: ['west', 'east'], kinship: 0.2 }],
  },
];

/** The kinship of those groups that occur, as kinshipOf asks for. */
function amongGroupsOf(
  entries: readonly PedigreeEntry[],
  founders: FounderKinship | undefined,
): FounderKinship | undefined {
  if (founders === undefined || typeof founders.within === 'number') return founders;
  const occurring = new Set(entries.map(({ group }) => group));
  return {
    within: new Map([...founders.within].filter(([group]) => occurring.has(group))),
    between: (founders.between ?? []).filter(({ groups }) => groups.every((group) => occurring.has(group))),
  };
}

/** source: the tabular rule, written out by itself in support/tabular.ts (Henderson 1988; Legarra and others 2015). */
describe('kinship of any pedigree', () => {
  const relationshipBy = (entries: readonly PedigreeEntry[], founders?: FounderKinship) => {
    const { matrix, names } = tabularRelationships(entries, founders);
    const at = new Map(names.map((name, k) => [name, k]));
    for (const { genet, cloneOf } of entries) if (cloneOf !== null) at.set(genet, at.get(cloneOf)!);
    return { matrix, of: (a: string, b: string) => matrix[at.get(a)!]![at.get(b)!]! };
  };

  it.each(FOUNDERS)('agrees with the tabular rule in every relationship (%j)', (founders) => {
    fc.assert(
      fc.property(randomPedigree, (entries) => {
        const kinship = kinshipOf(entries, amongGroupsOf(entries, founders));
        const expected = relationshipBy(entries, founders);
        for (const [i, { genet: a }] of entries.entries()) {
          const row = kinship.coancestriesWith(a);
          expect(kinship.inbreeding[i]).toBeCloseTo(expected.of(a, a) - 1, 11);
          for (const [j, { genet: b }] of entries.entries()) {
            expect(row[j]).toBeCloseTo(expected.of(a, b) / 2, 11);
            expect(kinship.relationship(a, b)).toBeCloseTo(expected.of(a, b), 11);
            expect(kinship.coancestry(b, a)).toBeCloseTo(expected.of(a, b) / 2, 11);
          }
        }
      }),
      { seed: 31, numRuns: 150 },
    );
  });

  it.each(FOUNDERS)('has the inverse and the log-determinant of that matrix (%j)', (founders) => {
    fc.assert(
      fc.property(randomPedigree, (entries) => {
        const kinship = kinshipOf(entries, amongGroupsOf(entries, founders));
        const { matrix } = tabularRelationships(entries, founders);
        const { inverse, logDeterminant } = inverted(writtenOut(kinship.inverse));
        expect(kinship.inverse.size).toBe(matrix.length);
        expect(kinship.logDeterminant).toBeCloseTo(-logDeterminant, 8);
        expect(kinship.logDeterminant).toBeCloseTo(inverted(matrix).logDeterminant, 8);
        const expected = relationshipBy(entries, founders);
        for (const [i, { genet: a }] of entries.entries())
          for (const [j, { genet: b }] of entries.entries())
            expect(inverse[kinship.equations[i]!]![kinship.equations[j]!]).toBeCloseTo(expected.of(a, b), 8);
      }),
      { seed: 32, numRuns: 150 },
    );
  });

  it('does not depend on the order of the rows or on names', () => {
    fc.assert(
      fc.property(randomPedigree, fc.infiniteStream(fc.nat()), (entries, order) => {
        const shuffled = entries
          .map((entry) => ({ entry, key: order.next().value! }))
          .sort((a, b) => a.key - b.key)
          .map(({ entry }) => entry);
        const renamed = (name: string) => (name === 'self' ? name : `${name.split('').reverse().join('')} ×`);
        const others = shuffled.map((entry) => ({
          ...entry,
          genet: renamed(entry.genet),
          seedParents: entry.seedParents.map((parent) => ({ ...parent, genet: renamed(parent.genet) })),
          pollenParents: entry.pollenParents.map((parent) => ({ ...parent, genet: renamed(parent.genet) })),
          cloneOf: entry.cloneOf === null ? null : renamed(entry.cloneOf),
        }));
        const kinship = kinshipOf(entries, { within: 0.4 });
        const again = kinshipOf(others, { within: 0.4 });
        expect(again.logDeterminant).toBeCloseTo(kinship.logDeterminant, 9);
        for (const [i, { genet }] of entries.entries()) {
          const j = again.indexOf(renamed(genet))!;
          expect(again.inbreeding[j]).toBeCloseTo(kinship.inbreeding[i]!, 11);
          expect(again.mendelian[j]).toBeCloseTo(kinship.mendelian[i]!, 11);
        }
      }),
      { seed: 33, numRuns: 150 },
    );
  });

  it('agrees with the tabular rule in a pedigree of many couples per generation', () => {
    const random = seededRandom('many couples');
    const founder = { seedParents: [], pollenParents: [], cloneOf: null, group: null };
    const entries: PedigreeEntry[] = [];
    for (let generation = 0; generation < 5; generation++) {
      const older = entries.length;
      const any = () => `g${random.integer(older)}`;
      for (let k = 0; k < 130; k++) {
        const genet = `g${entries.length}`;
        if (generation === 0) {
          entries.push({ ...founder, genet, group: random.pick(['east', 'west', null]) });
          continue;
        }
        const fathers = [...new Set([any(), any(), any(), any()])];
        const pollen = fathers.map((father) => ({ genet: father, chance: 0.9 / fathers.length }));
        entries.push({
          ...founder,
          genet,
          seedParents: [{ genet: any(), chance: 1 }],
          pollenParents: pollen,
        });
      }
    }
    const founders = FOUNDERS[2]!;
    const kinship = kinshipOf(entries, amongGroupsOf(entries, founders));
    const { matrix, names } = tabularRelationships(entries, founders);
    const couples = kinship.inverse.values.length - kinship.inverse.size;
    expect(couples).toBeGreaterThan(5000);
    let furthest = 0;
    for (let i = 2; i < names.length; i++) {
      const row = kinship.coancestriesWith(names[i]!);
      for (let j = 2; j < names.length; j++)
        furthest = Math.max(furthest, Math.abs(2 * row[j - 2]! - matrix[i]![j]!));
    }
    expect(furthest).toBeLessThan(1e-12);
    // The inverse times the matrix: groups come first in both.
    const equations = [0, 1, ...kinship.equations];
    const inverse = writtenOut(kinship.inverse);
    let amiss = 0;
    for (let i = 0; i < names.length; i++) {
      const entriesOfRow = names.map((_, k) => inverse[equations[i]!]![equations[k]!]!);
      for (let j = 0; j < names.length; j++) {
        let sum = i === j ? -1 : 0;
        for (let k = 0; k < names.length; k++)
          if (entriesOfRow[k] !== 0) sum += entriesOfRow[k]! * matrix[k]![j]!;
        amiss = Math.max(amiss, Math.abs(sum));
      }
    }
    expect(amiss).toBeLessThan(1e-10);
  });
});

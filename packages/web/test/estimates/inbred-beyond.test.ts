import { kinshipOf, type PedigreeEntry } from '@keelrow/breeding/pedigree';
import { describe, expect, test } from 'vitest';
import { inbredBeyond } from '../../src/estimates/inbred-beyond.ts';

const entry = (
  genet: string,
  seed: string | null,
  pollen: string | null,
  group: string | null,
): PedigreeEntry => ({
  genet,
  seedParents: seed ? [{ genet: seed, chance: 1 }] : [],
  pollenParents: pollen ? [{ genet: pollen, chance: 1 }] : [],
  cloneOf: null,
  group,
});
/** Two founders of one group, their cross, a self of a founder, a cross of two full sibs; a founder of another group. */
const pedigree = [
  entry('A', null, null, 'north'),
  entry('B', null, null, 'north'),
  entry('Z', null, null, 'south'),
  entry('F1', 'A', 'B', null),
  entry('F1b', 'A', 'B', null),
  entry('self', 'A', 'self', null),
  entry('sibs', 'F1', 'F1b', null),
  entry('far', 'A', 'Z', null),
];

describe('inbreeding beyond that of the group', () => {
  // source: by definition a self of an unrelated founder has F = 1/2, progeny of full sibs 1/4, any unrelated cross 0.
  test.each([0, 0.4, 1, 1.8])(
    'is what the pedigree alone gives, whatever the kinship γ = %d of founders',
    (gamma) => {
      const kinship = kinshipOf(pedigree, { within: gamma });
      const beyond = (genet: string): number =>
        inbredBeyond(kinship.inbreeding[kinship.genets.indexOf(genet)]!, gamma);
      expect(beyond('A')).toBeCloseTo(0, 12);
      expect(beyond('F1')).toBeCloseTo(0, 12);
      expect(beyond('self')).toBeCloseTo(0.5, 12);
      expect(beyond('sibs')).toBeCloseTo(0.25, 12);
      expect(beyond('far')).toBe(0);
    },
  );
  test('is none where nothing is known, or where a group is one in all its genes', () => {
    expect(inbredBeyond(null, 1)).toBe(0);
    expect(inbredBeyond(1, 2)).toBe(0);
  });
});

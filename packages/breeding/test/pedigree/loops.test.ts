import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findLoop } from '../../src/pedigree/index.ts';

describe('loops in parentage', () => {
  /** Parents that are all older: by construction without a loop. */
  const pedigree = fc
    .integer({ min: 2, max: 60 })
    .chain((count) => fc.array(fc.array(fc.nat(), { maxLength: 3 }), { minLength: count, maxLength: count }))
    .map(
      (lists) =>
        new Map(
          lists.map((parents, child) => [
            `g${child}`,
            child === 0 ? [] : parents.map((parent) => `g${parent % child}`),
          ]),
        ),
    );

  it('are not found where every parent is older', () => {
    fc.assert(
      fc.property(pedigree, (parentsOf) => {
        expect(findLoop(parentsOf)).toBeNull();
      }),
      { seed: 4 },
    );
  });

  it('are found and named once a descendant is made a parent', () => {
    fc.assert(
      fc.property(pedigree, fc.nat(), (parentsOf, pick) => {
        const withParents = [...parentsOf].filter(([, parents]) => parents.length > 0);
        fc.pre(withParents.length > 0);
        const [child, parents] = withParents[pick % withParents.length]!;
        const broken = new Map(parentsOf).set(parents[0]!, [...(parentsOf.get(parents[0]!) ?? []), child]);
        const loop = findLoop(broken)!;
        expect(loop[0]).toBe(loop.at(-1));
        expect(loop.length).toBeGreaterThan(1);
        for (let step = 0; step + 1 < loop.length; step++)
          expect(broken.get(loop[step]!)).toContain(loop[step + 1]);
      }),
      { seed: 5 },
    );
  });

  it('are found in a chain of a hundred thousand', () => {
    const chain = new Map(
      Array.from({ length: 100_000 }, (_, index) => [String(index), [String((index + 1) % 100_000)]]),
    );
    expect(findLoop(chain)).toHaveLength(100_001);
  });
});

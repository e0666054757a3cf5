import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readParents, writeParents } from '../../src/facts/index.ts';

describe('possible parents', () => {
  it('are read as files write them', () => {
    expect(readParents('', 'seed')).toEqual([]);
    expect(readParents('2021-003-1', 'seed')).toEqual([{ genet: '2021-003-1', chance: 1 }]);
    expect(readParents('A:0.5; B:0.3', 'pollen')).toEqual([
      { genet: 'A', chance: 0.5 },
      { genet: 'B', chance: 0.3 },
    ]);
    expect(readParents('self', 'pollen')).toEqual([{ genet: 'self', chance: 1 }]);
    expect(readParents('SELF', 'pollen')).toEqual([{ genet: 'self', chance: 1 }]);
    expect(readParents('Self:0.3', 'pollen')).toEqual([{ genet: 'self', chance: 0.3 }]);
    expect(readParents('self:30%', 'pollen')).toEqual([{ genet: 'self', chance: 0.3 }]);
    expect(readParents('X:7/2:0,25', 'pollen')).toEqual([{ genet: 'X:7/2', chance: 0.25 }]);
  });

  // Common practice in breeders' lists, no source.
  it('that nobody knows or chose are none, not genets of that name', () => {
    for (const text of ['?', '??', '-', '—', 'unknown', 'Unk.', 'n/a'])
      expect([readParents(text, 'seed'), readParents(text, 'pollen')]).toEqual([[], []]);
    for (const text of ['OP', 'o.p.', 'open-pollinated', 'Open pollinated'])
      expect(readParents(text, 'pollen')).toEqual([]);
    // A seed parent is never open-pollinated, so there OP is a code like any other.
    expect(readParents('OP', 'seed')).toEqual([{ genet: 'OP', chance: 1 }]);
    expect(readParents('?:0.5;B:0.5', 'pollen')).toMatchObject([{ genet: '?' }, { genet: 'B' }]);
    const named = [{ genet: 'OP', chance: 1 }];
    expect(readParents(writeParents(named), 'pollen')).toEqual(named);
  });

  it('are refused in words', () => {
    const problem = (text: string, side: 'seed' | 'pollen' = 'pollen') => {
      const read = readParents(text, side);
      return 'problem' in read ? read.problem : null;
    };
    expect(problem('A:0.8;B:0.3')).toMatch(/add up to 1.1/);
    expect(problem('A;B')).toMatch(/has no chance/);
    expect(problem('A:0.2;A:0.2')).toMatch(/listed twice/);
    expect(problem('A:0')).toMatch(/above 0/);
    expect(problem('A:-0.1')).toMatch(/chance of “A” is -0.1/);
    expect(problem('A:−0,1')).toMatch(/chance of “A” is -0.1/);
    expect(problem('A:')).toMatch(/lacks the chance/);
    expect(problem(':0.5')).toMatch(/lacks the genet/);
    expect(problem('Self', 'seed')).toMatch(/belongs under the pollen parent/);
    expect(problem('self', 'seed')).toMatch(/belongs under the pollen parent/);
  });

  it('come back as they were written', () => {
    const code = fc
      .string({ minLength: 1, maxLength: 12 })
      .filter((text) => text.trim() === text && !/[;]/.test(text) && !/^self$/i.test(text));
    const parents = fc
      .uniqueArray(code, { minLength: 1, maxLength: 4 })
      .chain((codes) =>
        fc
          .array(fc.integer({ min: 1, max: 1000 }), { minLength: codes.length, maxLength: codes.length })
          .map((weights) => ({ codes, weights })),
      )
      .map(({ codes, weights }) => {
        const sum = weights.reduce((a, b) => a + b, 0);
        return codes.map((genet, index) => ({
          genet,
          chance: codes.length === 1 ? 1 : weights[index]! / sum,
        }));
      });
    fc.assert(
      fc.property(parents, (list) => {
        expect(readParents(writeParents(list), 'pollen')).toEqual(list);
      }),
      { seed: 3, numRuns: 2000 },
    );
  });
});

import { describe, expect, it } from 'vitest';
import {
  additiveTerm,
  kinshipOf,
  type PedigreeEntry,
  PedigreeError,
  withUnlistedParents,
} from '../../src/pedigree/index.ts';
import { entriesOf } from './support/written-rows.ts';

const numbered = (entries: readonly PedigreeEntry[]) => entries.map((entry, k) => ({ ...entry, row: k + 2 }));
const founder = (genet: string): PedigreeEntry => entriesOf([[genet, '', '']])[0]!;

// source: the contract's words on what is refused; expectations written down by hand.
describe('parentage that cannot be', () => {
  const refusal = (entries: readonly PedigreeEntry[]): PedigreeError => {
    try {
      kinshipOf(numbered(entries));
    } catch (error) {
      if (error instanceof PedigreeError) return error;
      throw error;
    }
    throw new Error('it was not refused');
  };

  it.each<[string, readonly PedigreeEntry[], string, readonly number[]]>([
    [
      'a loop',
      entriesOf([
        ['a', 'b', ''],
        ['b', '', 'a:0.2'],
        ['c', 'a', ''],
      ]),
      '“a” ← “b” ← “a”',
      [2, 3],
    ],
    [
      'its own parent',
      entriesOf([
        ['a', '', ''],
        ['b', 'a', 'b:0.1'],
      ]),
      '“b” is its own parent',
      [3],
    ],
    ['its own clone', [founder('b'), { ...founder('a'), cloneOf: 'a' }], '“a” is a clone of itself', [3]],
    [
      'a ring of clones',
      [
        { ...founder('a'), cloneOf: 'b' },
        { ...founder('b'), cloneOf: 'a' },
      ],
      '“a” ← “b” ← “a”',
      [2, 3],
    ],
    [
      'a sport among the ancestors of its source',
      [...entriesOf([['a', 'sport', '']]), { ...founder('sport'), cloneOf: 'a' }],
      '“a” ← “sport” ← “a”',
      [2, 3],
    ],
    ['a genet twice', [founder('a'), founder('b'), founder('a')], '“a” is listed twice', [2, 4]],
    ['a parent that is not listed', entriesOf([['a', 'b', '']]), '“b”, a parent of “a”', [2]],
    ['a source that is not listed', [{ ...founder('a'), cloneOf: 'b' }], '“b”, of which “a” is a clone', [2]],
    [
      'a clone with parents',
      [founder('b'), { ...entriesOf([['a', 'b', '']])[0]!, cloneOf: 'b' }],
      'has parents and is a clone',
      [3],
    ],
    [
      'chances above 1',
      [founder('b'), { ...founder('a'), pollenParents: [{ genet: 'b', chance: 1.2 }] }],
      'the pollen parents of “a”',
      [3],
    ],
    [
      'one unknown pollen parent in two groups',
      [
        { ...founder('a'), group: 'east', sharedUnknownPollen: 'pod' },
        { ...founder('b'), group: 'west', sharedUnknownPollen: 'pod' },
      ],
      'share the unknown pollen parent “pod”',
      [2, 3],
    ],
  ])('is refused with its rows: %s', (_, entries, words, rows) => {
    const { problem, remedy, rows: told } = refusal(entries);
    expect(problem).toContain(words);
    expect(remedy).not.toBe('');
    expect([...told].sort()).toEqual(rows);
  });

  it('names a long loop by its beginning and its end', () => {
    const ring = entriesOf(Array.from({ length: 50 }, (_, k) => [`g${k}`, `g${(k + 1) % 50}`, '']));
    const { problem, rows } = refusal(ring);
    expect(problem).toMatch(/“g0” ← “g1” .* ← … ← “g0”$/);
    expect(rows).toHaveLength(50);
  });

  it.each([-0.1, 2, Number.NaN])('refuses a kinship of founders of %d', (within) => {
    const entries = [{ ...founder('a'), group: 'east' }];
    expect(() => kinshipOf(entries, { within })).toThrow(PedigreeError);
  });

  it('refuses a kinship of groups that no genet is of, or of one that has none within', () => {
    const entries = ['east', 'west'].map((group) => ({ ...founder(group), group }));
    const within = new Map([['east', 0.5]]);
    expect(() => kinshipOf(entries, { within: new Map([...within, ['zz', 0.2]]) })).toThrow(
      'a kinship of founders is given for the group “zz”, but no genet is of that group. Its groups are “east”, “west”; mend the name.',
    );
    const groups = ['east', 'west'] as const;
    expect(() => kinshipOf(entries, { within, between: [{ groups, kinship: 0.1 }] })).toThrow(
      /“west” has none within/,
    );
  });

  it('refuses groups that are closer to each other than within themselves', () => {
    const entries = ['east', 'west'].map((group) => ({ ...founder(group), group }));
    const between = [{ groups: ['east', 'west'] as const, kinship: 0.6 }];
    expect(() => kinshipOf(entries, { within: 0.5, between })).toThrow(/do not go together/);
  });
});

describe('what a pedigree is made ready for', () => {
  it('has founders added for parents and sources without an entry, each once', () => {
    const entries = [
      ...entriesOf([
        ['a', 'x', 'y:0.5;self:0.2'],
        ['b', 'x', 'a'],
      ]),
      { ...founder('s'), cloneOf: 'z' },
    ];
    const { entries: all, added } = withUnlistedParents(entries);
    expect(added).toEqual(['x', 'y', 'z']);
    expect(all.map(({ genet }) => genet)).toEqual(['a', 'b', 's', 'x', 'y', 'z']);
    expect(kinshipOf(all).relationship('s', 'z')).toBe(1);
  });

  it('keeps an inverse where generations of selfing have left no variance', () => {
    const line = entriesOf([
      ['s0', '', ''],
      ...Array.from({ length: 80 }, (_, k) => [`s${k + 1}`, `s${k}`, 'self']),
    ]);
    const { inbreeding, mendelian, inverse, logDeterminant } = kinshipOf(line);
    expect(inbreeding.at(-1)).toBe(1);
    expect(mendelian.at(-1)).toBe(1e-9);
    expect(inverse.values.every(Number.isFinite)).toBe(true);
    expect(logDeterminant).toBeLessThan(0);
  });

  it('is an additive term with every genet, clones at the equation of their source', () => {
    const entries = [
      ...entriesOf([
        ['a', '', ''],
        ['b', 'a', 'self'],
      ]),
      { ...founder('sport'), cloneOf: 'b' },
    ];
    const kinship = kinshipOf(entries);
    const term = additiveTerm(kinship, 'genet');
    expect(term).toMatchObject({ column: 'genet', levels: ['a', 'b', 'sport'], listedIn: 'the pedigree' });
    expect(term.equations![2]).toBe(term.equations![1]);
    expect([...(term.inbreeding as Float64Array)]).toEqual([0, 0.5, 0.5]);
    expect(term.inverse.size).toBe(2);
  });
});

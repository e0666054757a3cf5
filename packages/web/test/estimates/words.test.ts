import { describe, expect, test } from 'vitest';
import { tellsInWords } from '../../src/estimates/reliability-words.ts';
import { shareSentences, shareShown } from '../../src/estimates/share-words.ts';

describe('who tells on a genet, and how much', () => {
  test('own notes, kin, or both', () => {
    expect(tellsInWords({ notes: 4 }, { used: true }, 0.638)).toBe('own notes and kin tell 64%');
    expect(tellsInWords({ notes: 4 }, { used: false }, 0.638)).toBe('own notes tell 64%');
    expect(tellsInWords({ notes: 0 }, { used: true }, 0.31)).toBe('kin tell 31%');
  });
  test('never all, and what is not known is said', () => {
    expect(tellsInWords({ notes: 400 }, { used: true }, 0.999)).toMatch(/ 99%$/);
    expect(tellsInWords({ notes: 0 }, { used: true }, 0.002)).toMatch(/ <1%$/);
    expect(tellsInWords({ notes: 1 }, { used: true }, null)).toMatch(/not known/);
  });
});

describe('shares of the variation', () => {
  test('with their standard error where there is one, at least 1', () => {
    expect(shareShown({ value: 0.344, se: 0.052 })).toBe('34% (give or take 5)');
    expect(shareShown({ value: 0.344, se: 0.001 })).toBe('34% (give or take 1)');
    expect(shareShown({ value: 0.344, se: null })).toBe('34%');
  });
  test('nothing is said of what cannot be told', () => {
    expect(shareSentences({ heritability: null, repeatability: null, accuracy: null })).toEqual([]);
    expect(shareSentences({ heritability: null, repeatability: null, accuracy: 0 })).toHaveLength(1);
  });
});

import { describe, expect, it } from 'vitest';
import { nextCode, patternProblem, usualPatterns } from '../../src/facts/index.ts';

describe('codes by pattern', () => {
  it('take the number after the highest one ever given', () => {
    expect(nextCode('{year}-{serial:3}', ['2027-001', '2027-014', '2026-099', 'old 7'], 2027)).toBe(
      '2027-015',
    );
    expect(nextCode('{of}-{serial}', ['2027-014-1', '2027-014-12', '2027-01-99'], 2027, '2027-014')).toBe(
      '2027-014-13',
    );
    expect(nextCode('X{yy}-{serial:2}', [], 2007)).toBe('X07-01');
    expect(nextCode('{serial:2}', ['99'], 2027)).toBe('100');
  });

  it('refuse a pattern that would give one code twice, or that nobody can fill', () => {
    expect(patternProblem('{year}')).toMatch(/no \{serial\}/);
    expect(patternProblem('{month}-{serial}')).toMatch(/not known/);
    expect(Object.values(usualPatterns).map(patternProblem).filter(Boolean)).toEqual([]);
  });
});

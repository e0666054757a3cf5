import { createHash } from 'node:crypto';
import { rowProblems } from '@keelrow/breeding/facts';
import { describe, expect, it } from 'vitest';
import { type SimulatedGarden, simulateGarden } from '../src/index.ts';

/** A fingerprint of all that a garden hands out. */
function fingerprint(garden: SimulatedGarden): string {
  const hash = createHash('sha256');
  for (const part of [garden.records, garden.corrections, garden.withdrawals]) {
    for (const each of part) hash.update(JSON.stringify(each));
  }
  for (const [code, origin] of garden.truth.genets) {
    hash.update(
      JSON.stringify([code, origin, garden.truth.total(code, 'height'), garden.truth.pigments(code)]),
    );
  }
  return hash.update(JSON.stringify([garden.today, garden.settings, garden.truth.wrongLabels])).digest('hex');
}

describe('a simulated garden', () => {
  it('is the same to the byte for the same seed, and another for another seed', () => {
    const first = fingerprint(simulateGarden({ seed: 5, genets: 200 }));
    expect(fingerprint(simulateGarden({ seed: 5, genets: 200 }))).toBe(first);
    expect(fingerprint(simulateGarden({ seed: 6, genets: 200 }))).not.toBe(first);
  });

  it('can be gone through more than once', () => {
    const garden = simulateGarden({ seed: 5, genets: 100 });
    expect(fingerprint(garden)).toBe(fingerprint(garden));
  });

  it.each([
    { genets: 50, years: 3, startYear: 2000 },
    { genets: 100, years: 8, startYear: 2019 },
    { genets: 4000, years: 8, startYear: 2019 },
    { genets: 600, years: 12, startYear: 2012 },
  ])('comes in other sizes: $genets seedlings in $years years', (size) => {
    const garden = simulateGarden({ seed: 3, ...size });
    expect(garden.today).toBe(`${size.startYear + size.years - 1}-06-10`);
    let seedlings = 0;
    const problems: unknown[] = [];
    for (const { kind, row } of garden.records) {
      if (kind === 'plants' && row.raised_as === 'seedling' && row.age_at_planting === 0) seedlings++;
      problems.push(...rowProblems(kind, row as never, garden.today));
    }
    expect(problems.slice(0, 3)).toEqual([]);
    expect(seedlings).toBeGreaterThan(0.8 * size.genets);
    expect(seedlings).toBeLessThan(1.2 * size.genets + 10);
  });

  it('refuses what is no size of a garden, saying what is', () => {
    expect(() => simulateGarden({ seed: 1, genets: 10 })).toThrow(/number of seedlings is 10; .* from 50 to/);
    expect(() => simulateGarden({ seed: 1, years: 2.5 })).toThrow(/number of years is 2.5/);
  });

  it('names a genet that is not there when asked for its truth', () => {
    const { truth } = simulateGarden({ seed: 1, genets: 50, years: 3 });
    expect(() => truth.total('X99-01-1', 'height')).toThrow(/no genet “X99-01-1”/);
  });
});

import { type ClassEvidence, matchBrief } from '@keelrow/breeding/brief';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { upperHalfOfBeta } from '../../src/brief/beta-half.ts';
import { chanceOfClasses, classPrior, classShares } from '../../src/brief/class-chances.ts';
import { brief, evidence, limit } from './evidence.ts';

const counted = (
  ...genets: readonly (readonly [bare: number, half: number, leafy: number])[]
): ClassEvidence => ({
  trait: 'habit',
  classes: ['bare', 'half', 'leafy'],
  counts: new Map(
    genets.map((own, i) => [
      `G${i + 1}`,
      new Map(
        own.flatMap((count, k) => (count > 0 ? [[['bare', 'half', 'leafy'][k]!, count] as const] : [])),
      ),
    ]),
  ),
});

describe('upper half of a beta share', () => {
  it('equals a binomial tail for whole numbers', () => {
    // Source: P(Beta(a, b) > ½) = P(Bin(a + b − 1, ½) ≤ a − 1); DLMF 8.17.5.
    const binomial = (n: number, k: number) => {
      let [sum, term] = [0, 0.5 ** n];
      for (let i = 0; i <= k; i++) {
        sum += term;
        term *= (n - i) / (i + 1);
      }
      return sum;
    };
    for (const a of [1, 2, 5, 17, 60])
      for (const b of [1, 3, 4, 25, 80])
        expect(upperHalfOfBeta(a, b)).toBeCloseTo(binomial(a + b - 1, a - 1), 12);
  });

  it('equals closed forms for parts of one note', () => {
    expect(upperHalfOfBeta(0.5, 0.5)).toBeCloseTo(0.5, 14);
    // P(X > x) = (1 − x)ᵇ for a = 1; 1 − xᵃ for b = 1.
    expect(upperHalfOfBeta(1, 0.02)).toBeCloseTo(0.5 ** 0.02, 13);
    expect(upperHalfOfBeta(0.02, 1)).toBeCloseTo(1 - 0.5 ** 0.02, 13);
    expect(upperHalfOfBeta(0.01, 400)).toBeLessThan(1e-100);
    expect(upperHalfOfBeta(400, 0.01)).toBeCloseTo(1, 14);
  });
});

describe('classes of a genet', () => {
  it('pools little where genets are always noted alike, and much where notes are mixed in each', () => {
    const steady = classPrior(counted([4, 0, 0], [0, 4, 0], [0, 0, 4], [4, 0, 0]))!;
    const mixed = classPrior(counted([2, 1, 1], [1, 2, 1], [1, 1, 2], [2, 1, 1], [1, 2, 2]))!;
    expect(steady.weight).toBeLessThan(0.5);
    expect(mixed.weight).toBeGreaterThan(3);
  });

  it('finds the weight that gardens were drawn with', () => {
    const random = seededRandom('classes');
    const share = [0.5, 0.3, 0.2];
    for (const weight of [0.5, 2, 8]) {
      const genets = Array.from({ length: 600 }, () => {
        const parts = share.map((part) => random.gamma(weight * part, 1));
        const all = parts.reduce((sum, part) => sum + part, 0);
        const own: [number, number, number] = [0, 0, 0];
        for (let note = 0; note < 6; note++) {
          const at = random.uniform() * all;
          own[at < parts[0]! ? 0 : at < parts[0]! + parts[1]! ? 1 : 2] += 1;
        }
        return own;
      });
      const prior = classPrior(counted(...genets))!;
      expect(Math.abs(Math.log(prior.weight / weight)), `${weight}`).toBeLessThan(0.25);
      expect(prior.shares.get('bare')).toBeCloseTo(0.5, 1);
    }
  });

  it('expects of a genet without notes what the garden shows, and of one with many its own', () => {
    const prior = {
      shares: new Map([
        ['bare', 0.6],
        ['half', 0.3],
        ['leafy', 0.1],
      ]),
      weight: 2,
    };
    expect(classShares(prior, undefined)[0]).toEqual(['bare', 0.6]);
    const [name, share] = classShares(prior, new Map([['leafy', 8]]))[0]!;
    expect([name, share]).toEqual(['leafy', (8 + 0.2) / 10]);
    // Source: the beta share by hand, Beta(0.2 + 8, 1.8); exact for its whole-number neighbours above.
    expect(chanceOfClasses(prior, new Map([['leafy', 8]]), ['leafy'])).toBeCloseTo(
      upperHalfOfBeta(8.2, 1.8),
      14,
    );
    expect(chanceOfClasses(prior, undefined, ['bare', 'half', 'leafy'])).toBe(1);
  });

  it('multiplies into the chance of the other musts, and names the class in the way', () => {
    const classes = new Map([['habit', counted([3, 0, 0], [0, 0, 3])]]);
    const { plants, heed } = matchBrief(
      brief(limit('height', { atLeast: 100 }), limit('habit', { classes: ['leafy'] })),
      evidence(
        ['height'],
        { G1: { mean: [130], covariance: [25] }, G2: { mean: [130], covariance: [25] } },
        {
          classes,
          notes: new Map([
            [
              'habit',
              new Map([
                ['G1', 3],
                ['G2', 3],
              ]),
            ],
          ]),
        },
      ),
      seededRandom(1),
    );
    expect(plants.map(({ code }) => code)).toEqual(['G2', 'G1']);
    expect(plants[0]!.chance).toBeCloseTo(plants[0]!.limits[0]!.chance! * plants[0]!.limits[1]!.chance!, 12);
    expect(plants[1]!.inTheWay).toMatch(
      /^Habit otherwise: most likely bare \(\d+ of 100 notes\), wanted leafy$/,
    );
    expect(heed.join(' ')).toContain('not from kin');
  });
});

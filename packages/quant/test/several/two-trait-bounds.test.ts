import { describe, expect, it } from 'vitest';
import {
  correlationOfSum,
  fitTwoTraits,
  type Random,
  seededRandom,
  type TraitTable,
} from '../../src/index.ts';

interface Simulated {
  readonly genets: number;
  readonly plants: number;
  readonly years: number;
  /** Standard deviations in both traits and correlation. */
  readonly genet: readonly [number, number, number];
  readonly plant: readonly [number, number, number];
  readonly error: readonly [number, number, number];
}

function pair(random: Random, [a, b, r]: readonly [number, number, number]): [number, number] {
  const x = random.normal();
  return [a * x, b * (r * x + Math.sqrt(1 - r * r) * random.normal())];
}

/** Tables of two traits of genets with several plants each, noted every year. */
function simulated(seed: number, s: Simulated): [TraitTable, TraitTable] {
  const random = seededRandom(seed);
  const cells: string[][] = Array.from({ length: 6 }, () => []);
  for (let g = 0; g < s.genets; g++) {
    const genet = pair(random, s.genet);
    for (let p = 0; p < s.plants; p++) {
      const plant = pair(random, s.plant);
      for (let year = 0; year < s.years; year++) {
        const error = pair(random, s.error);
        const y = [0, 1].map((t) => 10 + year + genet[t]! + plant[t]! + error[t]!);
        [`g${g}`, `g${g}-${p}`, `${2020 + year}`, `g${g}-${p}/${year}`, ...y.map(String)].forEach(
          (cell, c) => {
            cells[c]!.push(cell);
          },
        );
      }
    }
  }
  const table = {
    columns: new Map(['genet', 'plant', 'year', 'visit', 'a', 'b'].map((name, c) => [name, cells[c]!])),
  };
  const trait = (name: string): TraitTable => ({
    name,
    table,
    model: { response: name, fixed: ['year'], random: ['genet', 'plant'] },
    occasion: 'visit',
  });
  return [trait('a'), trait('b')];
}

const plain: Simulated = {
  genets: 150,
  plants: 2,
  years: 3,
  genet: [2, 3, -0.6],
  plant: [1, 1, 0.5],
  error: [1.5, 1, 0.3],
};

describe('correlations of two simulated traits', () => {
  it('come back within their errors', () => {
    const fits = Array.from({ length: 12 }, (_, seed) => fitTwoTraits(...simulated(seed, plain)));
    for (const [name, truth] of [
      ['genet', -0.6],
      ['plant', 0.5],
      ['residual', 0.3],
    ] as const) {
      const found = fits.map((fit) => fit.terms.find(({ term }) => term === name)!.correlation!);
      const mean = found.reduce((sum, { value }) => sum + value, 0) / found.length;
      const se = Math.sqrt(found.reduce((sum, r) => sum + r.se! ** 2, 0)) / found.length;
      // The mean of twelve lies within three of its standard errors, and the spread of the twelve is what each claims.
      expect(Math.abs(mean - truth)).toBeLessThan(3 * se);
      const chi = found.reduce((sum, { value, se: own }) => sum + ((value - truth) / own!) ** 2, 0);
      // source: chi-square of 12 degrees of freedom, chances of 0.001 and 0.999: 2.21 and 32.9 (Pearson & Hartley 1966)
      expect(chi).toBeGreaterThan(2.21);
      expect(chi).toBeLessThan(32.9);
    }
  });

  it('have the same error alone and as a sum of one, and one of a sum between those of its parts', () => {
    const fit = fitTwoTraits(...simulated(3, plain));
    const genet = fit.terms.find(({ term }) => term === 'genet')!;
    expect(correlationOfSum(fit, ['genet'])!.se!).toBeCloseTo(genet.correlation!.se!, 10);
    const { value } = correlationOfSum(fit, ['genet', 'plant'])!;
    const [g, p] = ['genet', 'plant'].map((name) => fit.terms.find(({ term }) => term === name)!);
    const total = [0, 1].map((t) => g!.variances[t]!.value + p!.variances[t]!.value);
    expect(value).toBeCloseTo(
      (g!.covariance.value + p!.covariance.value) / Math.sqrt(total[0]! * total[1]!),
      12,
    );
  });
});

describe('two traits at the edge', () => {
  it('say that a correlation lies at 1 or at -1', () => {
    const fit = fitTwoTraits(...simulated(5, { ...plain, genet: [2, 3, 1], plant: [1, 1, -1] }));
    expect(fit.converged).toBe(true);
    const remarks = fit.terms.map(({ remark }) => remark);
    expect(remarks).toEqual(['at its bound: it is taken as 1', 'at its bound: it is taken as -1', null]);
    expect(fit.terms[0]!.correlation).toEqual({ value: 1, se: null });
    expect(fit.warnings).toContain('The correlation of "genet" is at its bound: it is taken as 1.');
  });

  it('leave a term out of the traits in which its variance is 0', () => {
    const none = { value: 0, se: null };
    for (const [seed, second] of [
      [3, { value: expect.any(Number), se: expect.any(Number) }],
      [0, none],
    ] as const) {
      const fit = fitTwoTraits(...simulated(seed, { ...plain, plant: [0, 0, 0] }));
      expect(fit.converged).toBe(true);
      const plant = fit.terms.find(({ term }) => term === 'plant')!;
      expect(plant).toMatchObject({ variances: [none, second], covariance: none, correlation: null });
      expect(fit.warnings[0]).toContain('a: The variance of "plant" lies at its lower bound');
    }
  });

  it('hold covariances that no row can tell at 0, and say so', () => {
    const [a, b] = simulated(4, plain);
    const { columns } = b.table;
    // The second trait on other plants and other days.
    const other = (name: string) => columns.get(name)!.map((cell) => `${cell}x`);
    const table = { columns: new Map([...columns, ['plant', other('plant')], ['visit', other('visit')]]) };
    const fit = fitTwoTraits(a, { ...b, table });
    expect(fit.terms.map(({ remark }) => remark)).toEqual([
      null,
      'held at 0: no level of "plant" has both traits',
      'held at 0: the traits were noted on no common occasion',
    ]);
    expect(fit.terms[1]!.correlation).toEqual({ value: 0, se: null });
    expect(fit.terms[0]!.correlation!.value).toBeLessThan(-0.3);
  });

  it('hold variances as asked, start from those given and name a trait whose table is wrong', () => {
    const [a, b] = simulated(5, plain);
    const held = fitTwoTraits({ ...a, model: { ...a.model, held: { genet: 4 } } }, b);
    expect(held.terms[0]!.variances[0]).toEqual({ value: 4, se: null });
    const fit = fitTwoTraits(a, b);
    const variances = (t: 0 | 1) =>
      Object.fromEntries(fit.terms.map(({ term, variances: of }) => [term, of[t]!.value]));
    const again = fitTwoTraits({ ...a, variances: variances(0) }, { ...b, variances: variances(1) });
    expect(again.remlLogLikelihood).toBeCloseTo(fit.remlLogLikelihood, 6);
    expect(() => fitTwoTraits({ ...a, variances: { genet: 1 } }, b)).toThrow(
      'in the trait "a", no variance of "plant" is given',
    );
    const wrong = { ...b, model: { ...b.model, response: 'c' } };
    expect(() => fitTwoTraits(a, wrong)).toThrow('in the trait "b", ');
  });

  it('can be stopped between iterations, and tell of each', () => {
    const [a, b] = simulated(6, plain);
    const seen: number[] = [];
    const variances = { genet: 1, plant: 1, residual: 1 };
    const control = {
      onProgress: ({ iteration }: { iteration: number }) => seen.push(iteration),
      isCancelled: () => seen.length === 2,
    };
    expect(() => fitTwoTraits({ ...a, variances }, { ...b, variances }, control)).toThrow('was stopped');
    expect(seen).toEqual([1, 2]);
  });
});

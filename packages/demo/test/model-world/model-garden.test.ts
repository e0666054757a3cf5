import { kinshipOf } from '@keelrow/breeding/pedigree';
import { describe, expect, it } from 'vitest';
import { drawModelGarden } from '../../src/index.ts';

const trait = {
  name: 'height',
  mean: 100,
  variances: { additive: 25, genet: 10, plant: 15, bed: 5, residual: 45 },
};
const draw = (seed: number, more = {}) => drawModelGarden({ seed, traits: [trait], ...more });

describe('a garden of the model world', () => {
  it('is the same for the same seed and another for another', () => {
    const shape = (seed: number) => {
      const garden = draw(seed);
      return JSON.stringify([garden.pedigree, garden.notes.get('height'), garden.total('g77', 'height')]);
    };
    expect(shape(3)).toBe(shape(3));
    expect(shape(4)).not.toBe(shape(3));
  });

  it('has the size and the ways of descent of a programme', () => {
    const { pedigree, notes, generationOf } = draw(1);
    expect(pedigree.length).toBeGreaterThan(400);
    expect(pedigree.length).toBeLessThan(500);
    expect(notes.get('height')!.length).toBeGreaterThan(800);
    expect(new Set(notes.get('height')!.map(({ year }) => year)).size).toBe(8);
    expect(new Set(pedigree.map(({ genet }) => generationOf(genet)))).toEqual(new Set([0, 1, 2, 3]));
    expect(pedigree.filter(({ cloneOf }) => cloneOf !== null).length).toBe(3);
    expect(pedigree.filter(({ group }) => group !== null).length).toBe(42);
    expect(pedigree.some(({ pollenParents }) => pollenParents.length > 2)).toBe(true);
    expect(pedigree.some(({ pollenParents }) => pollenParents[0]?.genet === 'self')).toBe(true);
  });

  it('draws additive values whose spread about their parents is what kinship says', () => {
    // source: infinitesimal model (Bulmer 1971); squares of standardised normal deviations have mean 1, variance 2.
    let [sum, count] = [0, 0];
    for (let seed = 1; seed <= 10; seed++) {
      const { pedigree, additive } = draw(seed);
      const { mendelian, indexOf } = kinshipOf(pedigree, { within: 0.5 });
      for (const { genet, seedParents, pollenParents } of pedigree) {
        if (pollenParents.length !== 1) continue;
        const seed = seedParents[0]!.genet;
        const pollen = pollenParents[0]!.genet === 'self' ? seed : pollenParents[0]!.genet;
        const mean = (additive(seed, 'height') + additive(pollen, 'height')) / 2;
        sum += (additive(genet, 'height') - mean) ** 2 / (25 * mendelian[indexOf(genet)!]!);
        count++;
      }
    }
    expect(count).toBeGreaterThan(2000);
    // Parents with uncertain fathers have less Mendelian variance on average records than by their true ones, by a little.
    expect(Math.abs(sum / count - 1)).toBeLessThan(4 * Math.sqrt(2 / count) + 0.02);
  });

  it('gains under selection', () => {
    const gains = Array.from({ length: 10 }, (_, k) => {
      const { pedigree, generationOf, additive } = draw(100 + k);
      const mean = (generation: number) => {
        const own = pedigree.filter(({ genet }) => generationOf(genet) === generation);
        return own.reduce((total, { genet }) => total + additive(genet, 'height'), 0) / own.length;
      };
      return mean(3) - mean(0);
    });
    const mean = gains.reduce((sum, gain) => sum + gain, 0) / gains.length;
    expect(mean).toBeGreaterThan(Math.sqrt(25));
  });

  it('draws traits that go together as asked', () => {
    const garden = drawModelGarden({
      seed: 8,
      traits: [trait, { ...trait, name: 'width' }],
      correlation: 0.6,
    });
    const own = garden.pedigree.map(({ genet }) =>
      ['height', 'width'].map((name) => garden.total(genet, name) - garden.additive(genet, name)),
    );
    const product = (a: number, b: number) => own.reduce((sum, each) => sum + each[a]! * each[b]!, 0);
    const correlation = product(0, 1) / Math.sqrt(product(0, 0) * product(1, 1));
    // Standard error of a correlation of n pairs: (1 − r²)/√n (Fisher 1921).
    expect(Math.abs(correlation - 0.6)).toBeLessThan((4 * (1 - 0.36)) / Math.sqrt(own.length));
  });

  it('draws an opposed trait against the others', () => {
    const garden = drawModelGarden({
      seed: 8,
      traits: [trait, { ...trait, name: 'width', opposed: true }],
      correlation: 0.6,
    });
    const own = garden.pedigree.map(({ genet }) =>
      ['height', 'width'].map((name) => garden.total(genet, name) - garden.additive(genet, name)),
    );
    const product = (a: number, b: number) => own.reduce((sum, each) => sum + each[a]! * each[b]!, 0);
    const correlation = product(0, 1) / Math.sqrt(product(0, 0) * product(1, 1));
    expect(Math.abs(correlation + 0.6)).toBeLessThan((4 * (1 - 0.36)) / Math.sqrt(own.length));
  });

  it('refuses a correlation that cannot be', () => {
    expect(() => draw(1, { correlation: 1.2 })).toThrow(/between 0 and 1/);
  });
});

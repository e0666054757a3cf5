import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { characters } from '../src/genetics/characters.ts';
import { drawEffects } from '../src/genetics/effects.ts';
import { GeneBank } from '../src/genetics/gene-bank.ts';
import { chromosomeStarts, loci, locusCount, majorLoci, polygenic } from '../src/genetics/loci.ts';
import { majorGenes } from '../src/genetics/major-genes.ts';
import { gamete, seedlingGenome } from '../src/genetics/meiosis.ts';
import {
  drawProvenance,
  drawSpecies,
  shareApart,
  speciesNames,
  wildGenome,
} from '../src/genetics/species.ts';

const random = seededRandom('genetics');
const effects = drawEffects(random.fork('effects'));
const species = speciesNames.map((name) => drawSpecies(random.fork(name), name, effects));
const heterozygous = Uint8Array.from({ length: 2 * locusCount }, (_, i) => (i < locusCount ? 1 : 0));

describe('meiosis', () => {
  const n = 20_000;
  const gametes = Array.from({ length: n }, () => {
    const child = new Uint8Array(2 * locusCount);
    gamete(random, heterozygous, child, 0);
    return child;
  });

  // source: Haldane's map function, r = ½(1 − exp(−2d)) (Haldane 1919); limits five standard errors wide.
  it.each([1, 2, 5, 9])('recombines loci %d places apart as Haldane’s map function says', (apart) => {
    const a = chromosomeStarts[0]!;
    const b = a + apart;
    const d = (loci[b]!.at - loci[a]!.at) / 100;
    const expected = 0.5 * (1 - Math.exp(-2 * d));
    const seen = gametes.filter((child) => child[a] !== child[b]).length / n;
    expect(Math.abs(seen - expected)).toBeLessThan(5 * Math.sqrt((expected * (1 - expected)) / n));
  });

  it('passes on each allele with chance one half, and chromosomes freely', () => {
    const limit = 5 * Math.sqrt(0.25 / n);
    for (const locus of [0, 100, locusCount - 1]) {
      expect(Math.abs(gametes.filter((child) => child[locus] === 1).length / n - 0.5)).toBeLessThan(limit);
    }
    const [a, b] = [chromosomeStarts[3]!, chromosomeStarts[4]!];
    expect(Math.abs(gametes.filter((child) => child[a] === child[b]).length / n - 0.5)).toBeLessThan(limit);
  });

  // source: Mendel's ratio 1:2:1 in a second generation; chi-square limit of 2 degrees of freedom at 1e-4, 18.42 (from memory).
  it('splits a major gene 1:2:1 in the second generation', () => {
    const counts = [0, 0, 0];
    const locus = majorLoci[0]!;
    for (let k = 0; k < 4000; k++) {
      const child = seedlingGenome(random, heterozygous, heterozygous);
      counts[child[locus]! + child[locusCount + locus]!]!++;
    }
    const chi = counts.reduce(
      (sum, count, k) => sum + (count - [1000, 2000, 1000][k]!) ** 2 / [1000, 2000, 1000][k]!,
      0,
    );
    expect(chi).toBeLessThan(18.42);
  });
});

describe('effects', () => {
  it('lie on at least 100 loci for every character', () => {
    const many = new Set(polygenic);
    effects.forEach(({ loci: places }, c) => {
      expect([characters[c]!.name, places.filter((locus) => many.has(locus)).length >= 100]).toEqual([
        characters[c]!.name,
        true,
      ]);
    });
  });

  // source: additive variance 2pq a² per locus (Falconer & Mackay 1996, equation 8.5 without dominance), here ½ a².
  it('add up to the variance stated, in a population with all alleles at one half and no linkage', () => {
    effects.forEach(({ loci: places, a }, c) => {
      const many = new Set(polygenic);
      const variance = places.reduce((sum, locus, k) => sum + (many.has(locus) ? a[k]! ** 2 / 2 : 0), 0);
      expect(Math.sqrt(variance)).toBeCloseTo(characters[c]!.sd, 6);
    });
  });

  it('leave the additive value of offspring at the mean of the parents’, selfs too', () => {
    const bank = new GeneBank(effects);
    const parents = [0, 1].map((k) => wildGenome(random, species[k]!));
    const [seed, pollen] = parents.map((genome) => bank.add(genome)) as [number, number];
    const mixed = bank.add(seedlingGenome(random, parents[0]!, parents[1]!));
    const families = [
      { of: [seed, pollen], genomes: parents },
      { of: [mixed, mixed], genomes: [bank.genome(mixed), bank.genome(mixed)] },
    ];
    for (const { of, genomes } of families) {
      const children = Array.from({ length: 3000 }, () =>
        bank.add(seedlingGenome(random, genomes[0]!, genomes[1]!)),
      );
      for (const { name, sd } of characters) {
        const values = children.map((child) => bank.additive(child, name));
        const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
        const middle = (bank.additive(of[0]!, name) + bank.additive(of[1]!, name)) / 2;
        expect(Math.abs(mean - middle) / sd).toBeLessThan(0.2);
      }
    }
  });
});

describe('species', () => {
  it('stand where their characters are stated, within a standard deviation', () => {
    const bank = new GeneBank(effects);
    speciesNames.forEach((name, s) => {
      const plants = Array.from({ length: 300 }, () => bank.add(wildGenome(random, species[s]!)));
      for (const character of characters) {
        if (character.name === 'spike-count') continue; // epistasis comes on top
        const mean =
          plants.reduce((sum, plant) => sum + bank.total(plant, character.name), 0) / plants.length;
        expect([name, character.name, Math.abs(mean - character.species[name]) / character.sd < 1]).toEqual([
          name,
          character.name,
          true,
        ]);
      }
    });
  });

  it('are nearly fixed for different alleles at a quarter of the loci or more', () => {
    for (const [a, b] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      expect(shareApart(species[a]!, species[b]!)).toBeGreaterThan(0.25);
    }
  });

  // source: F_ST as the variance of frequencies over p(1 − p) (Wright 1951); drawn at 0.1 by Balding & Nichols 1995.
  it('have provenances that drift by an F_ST of 0.1 where both alleles are common', () => {
    const pools = Array.from({ length: 400 }, () => drawProvenance(random, species[0]!));
    const open = polygenic.filter((locus) => species[0]![locus]! > 0.05 && species[0]![locus]! < 0.95);
    const ratios = open.map((locus) => {
      const p = species[0]![locus]!;
      return pools.reduce((sum, pool) => sum + (pool[locus]! - p) ** 2, 0) / pools.length / (p * (1 - p));
    });
    expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeCloseTo(0.1, 2);
  });

  it('lose all pigment but a trace where the pigment gene is recessive', () => {
    const bank = new GeneBank(effects);
    const genome = wildGenome(random, species[0]!);
    const locus = majorLoci[majorGenes.findIndex(({ name }) => name === 'pigment')]!;
    const coloured = bank.pigments(bank.add(genome));
    genome[locus] = 0;
    genome[locusCount + locus] = 0;
    const white = bank.pigments(bank.add(genome));
    expect(white.anthocyanin).toBeLessThan(0.05 * coloured.anthocyanin);
  });
});

import type { Random } from '@keelrow/quant';
import { characters } from './characters.ts';
import type { CharacterEffects } from './effects.ts';
import { loci, locusCount, polygenic } from './loci.ts';
import { majorGenes } from './major-genes.ts';

export type Species = 'blue' | 'yellow' | 'white';
export const speciesNames: readonly Species[] = ['blue', 'yellow', 'white'];

/** Frequency of allele 1 at every locus. */
export type Frequencies = Float64Array;

const shareOpen = 0.14;
const nearlyFixed = 0.985;

/**
 * Allele frequencies of a species: at most loci it is nearly fixed for one allele, at one locus in seven both are
 * common. Which allele is fixed is drawn, then exchanged locus by locus until the species' means stand where
 * characters.ts puts them. Species are drawn apart, so two of them differ at about half of the loci: their F1 is
 * heterozygous there and uniform, and the F2 scatters.
 */
export function drawSpecies(
  random: Random,
  species: Species,
  effects: readonly CharacterEffects[],
): Frequencies {
  const frequencies = new Float64Array(locusCount);
  const fixed: number[] = [];
  loci.forEach(({ major }, locus) => {
    if (major !== null) frequencies[locus] = majorGenes[major]!.frequency[species];
    else if (random.uniform() < shareOpen) frequencies[locus] = 0.2 + 0.6 * random.uniform();
    else {
      frequencies[locus] = random.uniform() < 0.5 ? nearlyFixed : 1 - nearlyFixed;
      fixed.push(locus);
    }
  });
  const gaps = characters.map(
    (character, index) =>
      (meanOf(frequencies, character.middle, effects[index]!) - character.species[species]) / character.sd,
  );
  const pulls = perLocus(effects);
  for (let pass = 0; pass < 12; pass++) {
    for (const locus of random.shuffle([...fixed])) {
      const turned = 1 - frequencies[locus]!;
      const step = 2 * (turned - frequencies[locus]!);
      const pull = pulls[locus]!;
      let gain = 0;
      for (let c = 0; c < characters.length; c++) {
        const moved = gaps[c]! + (step * pull[c]!) / characters[c]!.sd;
        gain += moved * moved - gaps[c]! * gaps[c]!;
      }
      if (gain >= 0) continue;
      frequencies[locus] = turned;
      for (let c = 0; c < characters.length; c++) gaps[c]! += (step * pull[c]!) / characters[c]!.sd;
    }
  }
  return frequencies;
}

/** Mean of a character in a random-mating population (Falconer & Mackay 1996, equation 7.2, summed over loci). */
function meanOf(frequencies: Frequencies, middle: number, { loci: places, a, d }: CharacterEffects): number {
  let mean = middle;
  places.forEach((locus, k) => {
    const p = frequencies[locus]!;
    mean += (2 * p - 1) * a[k]! + 2 * p * (1 - p) * d[k]!;
  });
  return mean;
}

/** Additive effects of every character by locus; dominance hardly matters where an allele is nearly fixed. */
function perLocus(effects: readonly CharacterEffects[]): Float64Array[] {
  const table = Array.from({ length: locusCount }, () => new Float64Array(effects.length));
  effects.forEach(({ loci: places, a }, character) => {
    places.forEach((locus, k) => {
      table[locus]![character] = a[k]!;
    });
  });
  return table;
}

/**
 * A provenance of a species: frequencies drift where both alleles are common (Balding & Nichols 1995, with
 * F_ST = 0.1), and now and then a locus that is nearly fixed is so for the other allele.
 */
export function drawProvenance(random: Random, species: Frequencies): Frequencies {
  const spread = (1 - 0.1) / 0.1;
  return species.map((p, locus) => {
    if (loci[locus]!.major !== null) return p;
    if (p > 0.05 && p < 0.95) return random.beta(p * spread, (1 - p) * spread);
    return random.uniform() < 0.02 ? 1 - p : p;
  });
}

/** The genome of one plant of a random-mating population. */
export function wildGenome(random: Random, frequencies: Frequencies): Uint8Array {
  const genome = new Uint8Array(2 * locusCount);
  for (let i = 0; i < genome.length; i++) genome[i] = random.uniform() < frequencies[i % locusCount]! ? 1 : 0;
  return genome;
}

/** Share of polygenic loci at which two populations are nearly fixed for different alleles. */
export const shareApart = (a: Frequencies, b: Frequencies): number =>
  polygenic.filter((locus) => Math.abs(a[locus]! - b[locus]!) > 0.9).length / polygenic.length;

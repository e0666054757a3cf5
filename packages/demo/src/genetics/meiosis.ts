import type { Random } from '@keelrow/quant';
import { chromosomeCount, chromosomeLength, chromosomeStarts, loci, locusCount } from './loci.ts';

/**
 * Writes a gamete of the parent into `child` from `offset` on. Crossovers fall at random along each chromosome, one
 * per 100 cM on average and without interference (Haldane 1919).
 *
 * @param parent both sets of the parent, one after the other, one byte per locus
 */
export function gamete(random: Random, parent: Uint8Array, child: Uint8Array, offset: number): void {
  for (let chromosome = 0; chromosome < chromosomeCount; chromosome++) {
    let strand = random.uniform() < 0.5 ? 0 : locusCount;
    let next = -Math.log(random.uniform()) * chromosomeLength;
    const end = chromosomeStarts[chromosome + 1]!;
    for (let locus = chromosomeStarts[chromosome]!; locus < end; locus++) {
      while (next < loci[locus]!.at) {
        strand = locusCount - strand;
        next -= Math.log(random.uniform()) * chromosomeLength;
      }
      child[offset + locus] = parent[strand + locus]!;
    }
  }
}

/** The genome of a seedling of two parents (the same twice for a self). */
export function seedlingGenome(random: Random, seedParent: Uint8Array, pollenParent: Uint8Array): Uint8Array {
  const child = new Uint8Array(2 * locusCount);
  gamete(random, seedParent, child, 0);
  gamete(random, pollenParent, child, locusCount);
  return child;
}

import { majorGenes } from './major-genes.ts';

/**
 * Where the loci lie: 24 chromosomes of 100 cM (garden lupin has 2n = 48; from memory), ten polygenic loci on each
 * and the major genes between them. A genome is one byte (allele 0 or 1) per locus for each of its two sets.
 */
export const chromosomeCount = 24;
const polygenicPerChromosome = 10;
export const chromosomeLength = 100;

interface Locus {
  readonly chromosome: number;
  /** Place on the chromosome, in cM. */
  readonly at: number;
  /** Index into majorGenes, or null for a polygenic locus. */
  readonly major: number | null;
}

function layOut(): Locus[] {
  const placed: Locus[] = [];
  for (let chromosome = 0; chromosome < chromosomeCount; chromosome++) {
    for (let k = 0; k < polygenicPerChromosome; k++) {
      placed.push({ chromosome, at: (k + 0.5) * (chromosomeLength / polygenicPerChromosome), major: null });
    }
  }
  majorGenes.forEach((_, major) => {
    placed.push({ chromosome: (major * 5 + 2) % chromosomeCount, at: 20 + ((major * 37) % 60), major });
  });
  return placed.sort((a, b) => a.chromosome - b.chromosome || a.at - b.at);
}

export const loci: readonly Locus[] = layOut();
export const locusCount = loci.length;

/** Loci that are not major genes. */
export const polygenic: readonly number[] = loci.flatMap(({ major }, locus) =>
  major === null ? [locus] : [],
);

/** The locus of each major gene, in their order. */
export const majorLoci: readonly number[] = majorGenes.map((_, major) =>
  loci.findIndex((locus) => locus.major === major),
);

/** The first locus of each chromosome, and one past the last of all. */
export const chromosomeStarts: readonly number[] = [
  ...Array.from({ length: chromosomeCount }, (_, chromosome) =>
    loci.findIndex((locus) => locus.chromosome === chromosome),
  ),
  locusCount,
];

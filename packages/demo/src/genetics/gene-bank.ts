import { type CharacterName, characterAt, characters } from './characters.ts';
import type { CharacterEffects } from './effects.ts';
import { locusCount, majorLoci } from './loci.ts';
import { majorGenes, pigmentLeft, spikesTogether } from './major-genes.ts';

const words = Math.ceil((2 * locusCount) / 32);
const width = characters.length;

const geneAt = (name: string): number => majorLoci[majorGenes.findIndex((gene) => gene.name === name)]!;
const [pigmentLocus, spikesOne, spikesTwo, darkLocus] = [
  'pigment',
  'many-spikes-one',
  'many-spikes-two',
  'dark-stem',
].map(geneAt) as [number, number, number, number];

/** Pigments of a flower as inherited: loads in units of the optical model, the violet's band in nm. */
export interface Pigments {
  readonly anthocyanin: number;
  readonly yellow: number;
  readonly bandNm: number;
  readonly keelAnthocyanin: number;
  readonly keelYellow: number;
}

/**
 * Genomes and true values of every genet, by number. Genomes are kept as bits and values as 32-bit floats, so that a
 * hundred thousand genets need some tens of megabytes.
 */
export class GeneBank {
  private genomes = new Uint32Array(words * 1024);
  private sums = new Float32Array(width * 1024);
  private totals = new Float32Array(width * 1024);
  private count = 0;
  private readonly effects: readonly CharacterEffects[];

  constructor(effects: readonly CharacterEffects[]) {
    this.effects = effects;
  }

  /** Stores a genome and reckons its values; gives the genet's number. */
  add(genome: Uint8Array): number {
    const genet = this.count++;
    if ((genet + 1) * words > this.genomes.length) this.grow();
    for (let i = 0; i < genome.length; i++) {
      if (genome[i]) this.genomes[genet * words + (i >>> 5)]! |= 1 << (i & 31);
    }
    for (let c = 0; c < width; c++) {
      const { loci, a, d } = this.effects[c]!;
      let sum = characters[c]!.middle;
      let beyond = 0;
      for (let k = 0; k < loci.length; k++) {
        const locus = loci[k]!;
        const dose = genome[locus]! + genome[locusCount + locus]!;
        sum += a[k]! * (dose - 1);
        if (dose === 1) beyond += d[k]!;
      }
      this.sums[genet * width + c] = sum;
      this.totals[genet * width + c] = sum + beyond;
    }
    if (dose(genome, spikesOne) > 0 && dose(genome, spikesTwo) > 0) {
      this.totals[genet * width + characterAt('spike-count')]! += spikesTogether;
    }
    return genet;
  }

  private grow(): void {
    const larger = <T extends Uint32Array | Float32Array>(old: T, fresh: T): T => {
      fresh.set(old);
      return fresh;
    };
    this.genomes = larger(this.genomes, new Uint32Array(this.genomes.length * 2));
    this.sums = larger(this.sums, new Float32Array(this.sums.length * 2));
    this.totals = larger(this.totals, new Float32Array(this.totals.length * 2));
  }

  genome(genet: number): Uint8Array {
    const genome = new Uint8Array(2 * locusCount);
    for (let i = 0; i < genome.length; i++) {
      genome[i] = (this.genomes[genet * words + (i >>> 5)]! >>> (i & 31)) & 1;
    }
    return genome;
  }

  /** Sum over loci of the additive effects: a seedling's is on average the mean of its parents'. */
  additive(genet: number, character: CharacterName): number {
    return this.sums[genet * width + characterAt(character)]!;
  }

  /** The genet's whole genetic value, dominance and epistasis included. */
  total(genet: number, character: CharacterName): number {
    return this.totals[genet * width + characterAt(character)]!;
  }

  private dose(genet: number, locus: number): number {
    const bit = (i: number) => (this.genomes[genet * words + (i >>> 5)]! >>> (i & 31)) & 1;
    return bit(locus) + bit(locusCount + locus);
  }

  /** Raising alleles of the dark-stem gene, 0 to 2. */
  darkStem(genet: number): number {
    return this.dose(genet, darkLocus);
  }

  pigments(genet: number): Pigments {
    const left = this.dose(genet, pigmentLocus) === 0 ? pigmentLeft : 1;
    const anthocyanin = left * Math.max(0, this.total(genet, 'anthocyanin'));
    const yellow = left * Math.max(0, this.total(genet, 'yellow')) + 0.03;
    const keel = Math.min(1, Math.max(0, this.total(genet, 'keel-yellow')));
    return {
      anthocyanin,
      yellow,
      bandNm: this.total(genet, 'band'),
      keelAnthocyanin: anthocyanin * (0.95 - 0.7 * keel),
      keelYellow: yellow * (0.55 + 0.6 * keel),
    };
  }
}

const dose = (genome: Uint8Array, locus: number): number => genome[locus]! + genome[locusCount + locus]!;

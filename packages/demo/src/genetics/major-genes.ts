import type { CharacterName } from './characters.ts';

/** A gene of large effect: `a` half the difference of the homozygotes, `d` the heterozygote's departure. */
export interface MajorGene {
  readonly name: string;
  readonly effects: readonly { readonly character: CharacterName; readonly a: number; readonly d: number }[];
  /** Frequency of the allele that raises, by species. */
  readonly frequency: { readonly blue: number; readonly yellow: number; readonly white: number };
}

const gene = (
  name: string,
  [blue, yellow, white]: readonly [number, number, number],
  ...effects: MajorGene['effects'][number][]
): MajorGene => ({ name, effects, frequency: { blue, yellow, white } });

/**
 * Invented, but of the kinds on record: one locus that stops both pigments where recessive (as Barnes 1972 found in
 * alfalfa), a recessive dwarf, two genes for many spikes that strengthen one another, a late-flowering gene.
 */
export const majorGenes: readonly MajorGene[] = [
  gene('pigment', [0.99, 0.99, 0.02]),
  gene('blue-one', [0.99, 0.03, 0.06], { character: 'anthocyanin', a: 0.3, d: 0.04 }),
  gene('blue-two', [0.98, 0.04, 0.08], { character: 'anthocyanin', a: 0.2, d: 0 }),
  gene('yellow-one', [0.02, 0.99, 0.06], { character: 'yellow', a: 0.32, d: 0 }),
  gene('yellow-two', [0.02, 0.97, 0.05], { character: 'yellow', a: 0.18, d: 0.03 }),
  gene('bluer', [0.97, 0.08, 0.15], { character: 'band', a: 12, d: 5 }),
  gene('yellow-keel', [0.3, 0.9, 0.5], { character: 'keel-yellow', a: 0.18, d: 0.18 }),
  gene('many-spikes-one', [0.06, 0.02, 0.97], { character: 'spike-count', a: 1.5, d: 0.8 }),
  gene('many-spikes-two', [0.04, 0.3, 0.95], { character: 'spike-count', a: 1.2, d: 0.6 }),
  gene(
    'tall',
    [0.99, 0.75, 0.97],
    { character: 'height', a: 17, d: 17 },
    { character: 'foliage-height', a: 9, d: 9 },
  ),
  gene('late', [0.02, 0.93, 0.08], { character: 'first-flower-heat', a: 34, d: 12 }),
  gene('dark-stem', [0.7, 0.05, 0.02]),
];

/** Spikes added where both genes for many spikes have a raising allele (epistasis). */
export const spikesTogether = 2.2;
/** What is left of both pigments where the pigment gene is recessive. */
export const pigmentLeft = 0.03;

/**
 * What is inherited. Each character is the sum of many loci, of a few major genes (major-genes.ts) and, where `sway`
 * is above zero, of dominance that mostly raises it, so that selfing lowers it. All figures are invented.
 */
export interface Character<Name extends string = string> {
  readonly name: Name;
  /** Value where every polygenic locus is heterozygous, without dominance and without major genes. */
  readonly middle: number;
  /** Standard deviation of the polygenic part where every allele has frequency one half. */
  readonly sd: number;
  /** Where the three species stand, major genes included. */
  readonly species: { readonly blue: number; readonly yellow: number; readonly white: number };
  /** Dominance as a share of the additive effect. */
  readonly sway?: number;
  /** A character whose loci it shares in part: the genetic correlation that this makes among hybrids. */
  readonly follows?: { readonly name: string; readonly share: number };
}

const character = <Name extends string>(
  name: Name,
  middle: number,
  sd: number,
  [blue, yellow, white]: readonly [number, number, number],
  more: Pick<Character, 'sway' | 'follows'> = {},
): Character<Name> => ({ name, middle, sd, species: { blue, yellow, white }, ...more });

const follows = (name: string, share: number) => ({ follows: { name, share } });

/** In an order in which a character stands after the one that it follows. */
export const characters = [
  character('height', 92, 9, [118, 72, 88], { sway: 0.15 }),
  character('foliage-height', 52, 5.5, [62, 45, 50], follows('height', 0.65)),
  character('spike-length', 27, 4, [35, 19, 24], { sway: 0.15, ...follows('height', 0.3) }),
  character('florets-per-spike', 62, 9, [84, 42, 58], follows('spike-length', 0.6)),
  character('spike-count', 7.5, 2, [6, 5, 12], { sway: 0.35 }),
  character('width', 74, 8, [78, 84, 60], { sway: 0.15, ...follows('spike-count', 0.35) }),
  character('bare-stem', 13, 4, [13, 8, 19]),
  character('spike-angle', 16, 4, [11, 22, 15]),
  character('side-spikes', 4, 1.3, [3, 6, 4]),
  character('lodging', 3.8, 0.9, [3.6, 3, 5], follows('height', 0.35)),
  character('leaf-spot', 4, 1, [3, 5.2, 3.8]),
  character('glaucous', 0, 1, [-0.6, 1.2, 0]),
  character('emergence-heat', 92, 13, [84, 110, 88]),
  character('first-flower-heat', 545, 27, [490, 640, 540], follows('emergence-heat', 0.3)),
  character('bloom-heat', 265, 22, [260, 285, 250]),
  character('ripening-heat', 420, 25, [430, 410, 400]),
  character('anthocyanin', 0.9, 0.15, [1.75, 0.08, 0.25]),
  character('yellow', 0.85, 0.15, [0.06, 1.65, 0.16]),
  character('band', 578, 4, [597, 560, 570]),
  character('keel-yellow', 0.5, 0.1, [0.35, 0.7, 0.5]),
  character('rooting', 0.9, 0.5, [1.3, 0.3, 0.9]),
  character('bud-setting', 0.2, 0.6, [0.5, -0.7, 0.7]),
  character('winter', 2.9, 0.4, [3.1, 2.5, 2.9]),
  character('fertility', 0, 0.25, [0.1, -0.2, 0.1]),
] as const satisfies readonly Character[];

export type CharacterName = (typeof characters)[number]['name'];

const places = new Map<CharacterName, number>(characters.map(({ name }, index) => [name, index]));

/** The place of a character in the list, by which values are stored. */
export const characterAt = (name: CharacterName): number => places.get(name)!;

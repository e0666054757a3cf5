import type { Lab } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { petalColour } from '../colour/petal.ts';
import type { Pigments } from '../genetics/gene-bank.ts';

export type Petal = 'banner-colour' | 'keel-colour' | 'fading-colour';

/** Ways of taking a colour, how common each is, and its error as a standard deviation in CIELAB. */
const ways = [
  { way: 'instrument', share: 0.35, sd: 0.8 },
  { way: 'photo with grey card', share: 0.75, sd: 2 },
  { way: 'picked from a screen', share: 1, sd: 4.5 },
] as const;

/** A petal's colour as noted; flowers of one plant differ, and fading flowers have lost a part of their violet. */
export function notedColour(random: Random, petal: Petal, pigments: Pigments): { value: Lab; way: string } {
  const u = random.uniform();
  const { way, sd } = ways.find(({ share }) => u < share)!;
  const flower = Math.exp(random.normal(0, 0.06));
  const fading = petal === 'fading-colour';
  const keel = petal === 'keel-colour';
  const anthocyanin = (keel ? pigments.keelAnthocyanin : pigments.anthocyanin) * flower * (fading ? 0.75 : 1);
  const yellow = (keel ? pigments.keelYellow : pigments.yellow) * flower;
  const asItIs = petalColour(anthocyanin, yellow, pigments.bandNm - (fading ? 6 : 0) + random.normal(0, 1));
  const read = (value: number) => Math.round((value + random.normal(0, sd)) * 10) / 10;
  return {
    value: { l: Math.min(100, Math.max(0, read(asItIs.l))), a: read(asItIs.a), b: read(asItIs.b) },
    way,
  };
}

/** Classes as a person calls them, now and then one off. */
export function notedClass(random: Random, classes: readonly string[], place: number): string {
  const off = random.uniform() < 0.05 ? (random.uniform() < 0.5 ? -1 : 1) : 0;
  return classes[Math.min(classes.length - 1, Math.max(0, place + off))]!;
}

import type { Random } from '@keelrow/quant';
import { type Character, characters } from './characters.ts';
import { loci, locusCount, polygenic } from './loci.ts';
import { majorGenes } from './major-genes.ts';

/** The effects of one character: for each listed locus `a` per allele beyond one, `d` where heterozygous. */
export interface CharacterEffects {
  readonly loci: Uint16Array;
  readonly a: Float64Array;
  readonly d: Float64Array;
}

const lociPerCharacter = 120;

/**
 * Draws every character's effects. Each character has 120 loci of its own, drawn from 240, with effects of skewed
 * sizes (gamma, shape 0.6: many small, some large) and either sign; a character that follows another also takes that
 * one's loci. The polygenic part is scaled to the standard deviation that the character states, which at allele
 * frequency one half is the root of the sum of a²/2 (Falconer & Mackay 1996, equation 8.5, d left aside).
 */
export function drawEffects(random: Random): readonly CharacterEffects[] {
  const additive = new Map<string, Float64Array>();
  for (const { name, sd, follows } of characters as readonly Character[]) {
    const stream = random.fork(name);
    const own = new Float64Array(locusCount);
    for (const locus of stream.shuffle([...polygenic]).slice(0, lociPerCharacter)) {
      own[locus] = stream.gamma(0.6, 1) * (stream.uniform() < 0.5 ? -1 : 1);
    }
    const a = scaled(own, sd);
    if (follows) {
      const other = scaled(additive.get(follows.name)!, sd);
      const rest = Math.sqrt(1 - follows.share ** 2);
      for (let locus = 0; locus < locusCount; locus++) {
        a[locus] = follows.share * other[locus]! + rest * a[locus]!;
      }
    }
    additive.set(name, scaled(a, sd));
  }
  return (characters as readonly Character[]).map(({ name, sway = 0 }) => {
    const stream = random.fork(`dominance of ${name}`);
    const a = additive.get(name)!;
    const d = a.map((effect) => sway * Math.abs(effect) * 2 * stream.uniform());
    loci.forEach(({ major }, locus) => {
      if (major === null) return;
      const effect = majorGenes[major]!.effects.find(({ character }) => character === name);
      a[locus] = effect?.a ?? 0;
      d[locus] = effect?.d ?? 0;
    });
    const used = loci.map((_, locus) => locus).filter((locus) => a[locus] !== 0 || d[locus] !== 0);
    return {
      loci: Uint16Array.from(used),
      a: Float64Array.from(used, (locus) => a[locus]!),
      d: Float64Array.from(used, (locus) => d[locus]!),
    };
  });
}

function scaled(effects: Float64Array, sd: number): Float64Array {
  const now = Math.sqrt(effects.reduce((sum, a) => sum + (a * a) / 2, 0));
  return effects.map((a) => (a * sd) / now);
}

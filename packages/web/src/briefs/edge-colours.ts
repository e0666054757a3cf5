import { colourDifference } from '@keelrow/breeding/colour';
import type { Lab } from '@keelrow/breeding/facts';

const ways = [
  { words: 'darker', l: -1, a: 0, b: 0 },
  { words: 'lighter', l: 1, a: 0, b: 0 },
  { words: 'redder', l: 0, a: 1, b: 0 },
  { words: 'greener', l: 0, a: -1, b: 0 },
  { words: 'yellower', l: 0, a: 0, b: 1 },
  { words: 'bluer', l: 0, a: 0, b: -1 },
] as const;

/**
 * The colours that are only just within a CIEDE2000 difference of one, in six directions of CIELAB, found by halving.
 * A direction in which no colour lies so far off (black cannot be darker) is left out.
 */
export function edgeColours(from: Lab, within: number): { readonly words: string; readonly colour: Lab }[] {
  return ways.flatMap(({ words, l, a, b }) => {
    const at = (way: number): Lab => ({ l: from.l + way * l, a: from.a + way * a, b: from.b + way * b });
    // Lightness runs from 0 to 100, surface colours reach about 128 along a and b.
    let [near, far] = [0, l === 0 ? 128 : l > 0 ? 100 - from.l : from.l];
    if (colourDifference(from, at(far)).total < within) return [];
    for (let halving = 0; halving < 30; halving++) {
      const middle = (near + far) / 2;
      if (colourDifference(from, at(middle)).total <= within) near = middle;
      else far = middle;
    }
    return [{ words, colour: at(near) }];
  });
}

const C1 = 0xcc9e2d51;
const C2 = 0x1b873593;

/**
 * MurmurHash3, 32-bit form for x86 (Austin Appleby 2011, public domain), of a text's UTF-8 bytes.
 *
 * @param text any text
 * @param seed unsigned 32-bit seed
 * @returns unsigned 32-bit hash
 */
export function murmur3(text: string, seed: number): number {
  const bytes = new TextEncoder().encode(text);
  const whole = bytes.length & ~3;
  let h = seed | 0;
  for (let i = 0; i < whole; i += 4) {
    const k = bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24);
    h ^= scramble(k);
    h = (h << 13) | (h >>> 19);
    h = (Math.imul(h, 5) + 0xe6546b64) | 0;
  }
  let tail = 0;
  for (let i = bytes.length - 1; i >= whole; i--) tail = (tail << 8) | bytes[i]!;
  h ^= scramble(tail);
  return finish(h ^ bytes.length);
}

function scramble(k: number): number {
  const mixed = Math.imul(k, C1);
  return Math.imul((mixed << 15) | (mixed >>> 17), C2);
}

function finish(hash: number): number {
  let h = hash;
  h ^= h >>> 16;
  h = Math.imul(h, 0x85ebca6b);
  h ^= h >>> 13;
  h = Math.imul(h, 0xc2b2ae35);
  h ^= h >>> 16;
  return h >>> 0;
}

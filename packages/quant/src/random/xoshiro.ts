import { murmur3 } from './murmur3.ts';

/** State of xoshiro128**: four 32-bit words, not all zero. */
export type XoshiroState = Int32Array;

/**
 * A state drawn from a text, so that any two different texts give unrelated streams (128 bits of MurmurHash3 with four
 * seeds: the chance that two of a million texts share a state is below 1e-26).
 */
export function xoshiroStateFrom(text: string): XoshiroState {
  const state = new Int32Array(4);
  for (let i = 0; i < 4; i++) state[i] = murmur3(text, i + 1);
  if ((state[0]! | state[1]! | state[2]! | state[3]!) === 0) state[0] = 1;
  return state;
}

/**
 * Next unsigned 32-bit number of xoshiro128** 1.1: D. Blackman and S. Vigna (2021), Scrambled linear pseudorandom
 * number generators, ACM Transactions on Mathematical Software 47(4), article 36. Period 2^128 - 1.
 *
 * @param state changed in place
 */
export function xoshiroNext(state: XoshiroState): number {
  const s1 = state[1]!;
  const scrambled = Math.imul(s1, 5);
  const result = Math.imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0;
  state[2] = state[2]! ^ state[0]!;
  state[3] = state[3]! ^ s1;
  state[1] = s1 ^ state[2]!;
  state[0] = state[0]! ^ state[3]!;
  state[2] = state[2]! ^ (s1 << 9);
  const s3 = state[3]!;
  state[3] = (s3 << 11) | (s3 >>> 21);
  return result;
}

import { describe, expect, it } from 'vitest';
import { murmur3 } from '../../src/random/murmur3.ts';
import { xoshiroNext, xoshiroStateFrom } from '../../src/random/xoshiro.ts';

describe('xoshiro128**', () => {
  // source: output of the authors' reference C program (version 1.1) from state {1, 2, 3, 4}, as kept in the tests of
  // the Rust crate rand_xoshiro.
  it('gives the published sequence from the state 1, 2, 3, 4', () => {
    const state = Int32Array.of(1, 2, 3, 4);
    const drawn = Array.from({ length: 10 }, () => xoshiroNext(state));
    expect(drawn).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('starts different texts in different states', () => {
    const states = new Set<string>();
    for (let i = 0; i < 5000; i++) states.add(xoshiroStateFrom(`stream ${i}`).join());
    expect(states.size).toBe(5000);
  });
});

describe('MurmurHash3 of a text', () => {
  // source: Wikipedia, MurmurHash, table of test vectors (32-bit).
  it.each([
    ['', 0, 0],
    ['', 1, 0x514e28b7],
    ['', 0xffffffff, 0x81f16f39],
    ['test', 0, 0xba6bd213],
    ['test', 0x9747b28c, 0x704b81dc],
    ['Hello, world!', 0, 0xc0363e43],
    ['Hello, world!', 0x9747b28c, 0x24884cba],
    ['The quick brown fox jumps over the lazy dog', 0, 0x2e4ff723],
    ['The quick brown fox jumps over the lazy dog', 0x9747b28c, 0x2fa826cd],
  ])('of %j with seed %d', (text, seed, hash) => {
    expect(murmur3(text, seed)).toBe(hash);
  });
});

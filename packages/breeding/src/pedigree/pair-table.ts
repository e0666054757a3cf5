/**
 * Pairs of numbers, each pair once, in the order in which they were first met. A hash table with open addressing in typed
 * arrays (Knuth 1998, The Art of Computer Programming 3, section 6.4, algorithm L).
 */
export class PairTable {
  /** Pairs met so far. */
  count = 0;
  /** Pair k is (`pairs[2 * k]`, `pairs[2 * k + 1]`): side by side, so that a look at one costs one line of memory. */
  private readonly pairs: Int32Array;
  /** 1 + number of the pair in each slot; 0 is free. */
  private slots = new Int32Array(4096);
  private mask = 4095;

  /** @param most pairs that will be met at most */
  constructor(most: number) {
    this.pairs = new Int32Array(2 * most);
  }

  low(pair: number): number {
    return this.pairs[2 * pair]!;
  }

  high(pair: number): number {
    return this.pairs[2 * pair + 1]!;
  }

  /** Number of the pair (low, high), low below high; met now if not before. */
  numberOf(low: number, high: number): number {
    const { slots, pairs, mask } = this;
    let slot = hash(low, high) & mask;
    for (;;) {
      const found = slots[slot]! - 1;
      if (found < 0) return this.meet(low, high, slot);
      if (pairs[2 * found] === low && pairs[2 * found + 1] === high) return found;
      slot = (slot + 1) & mask;
    }
  }

  private meet(low: number, high: number, slot: number): number {
    const number = this.count++;
    this.pairs[2 * number] = low;
    this.pairs[2 * number + 1] = high;
    this.slots[slot] = number + 1;
    if (3 * this.count > 2 * this.mask) this.spread();
    return number;
  }

  private spread(): void {
    this.mask = 2 * this.mask + 1;
    const { pairs, count, mask } = this;
    const slots = new Int32Array(mask + 1);
    for (let number = 0; number < count; number++) {
      let slot = hash(pairs[2 * number]!, pairs[2 * number + 1]!) & mask;
      while (slots[slot] !== 0) slot = (slot + 1) & mask;
      slots[slot] = number + 1;
    }
    this.slots = slots;
  }
}

/** Spreads neighbouring numbers over all slots (multiplicative hashing; Knuth 1998, section 6.4). */
function hash(low: number, high: number): number {
  const mixed = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
  return mixed ^ (mixed >>> 15);
}

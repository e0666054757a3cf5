/**
 * Pairs of numbers, each pair once, in the order in which they were first met. A hash table with open addressing in typed
 * arrays (Knuth 1998, The Art of Computer Programming 3, section 6.4, algorithm L).
 */
export class PairTable {
  /** Pairs met so far; pair k is (`low[k]`, `high[k]`). */
  count = 0;
  low = new Int32Array(1024);
  high = new Int32Array(1024);
  /** 1 + number of the pair in each slot; 0 is free. */
  private slots = new Int32Array(4096);
  private mask = 4095;

  /** Number of the pair (low, high), low below high; met now if not before. */
  numberOf(low: number, high: number): number {
    let slot = hash(low, high) & this.mask;
    for (;;) {
      const found = this.slots[slot]! - 1;
      if (found < 0) return this.meet(low, high, slot);
      if (this.low[found] === low && this.high[found] === high) return found;
      slot = (slot + 1) & this.mask;
    }
  }

  private meet(low: number, high: number, slot: number): number {
    const number = this.count++;
    if (number === this.low.length) {
      this.low = doubled(this.low);
      this.high = doubled(this.high);
    }
    this.low[number] = low;
    this.high[number] = high;
    this.slots[slot] = number + 1;
    if (2 * this.count > this.mask) this.spread();
    return number;
  }

  private spread(): void {
    this.mask = 4 * this.mask + 3;
    this.slots = new Int32Array(this.mask + 1);
    for (let number = 0; number < this.count; number++) {
      let slot = hash(this.low[number]!, this.high[number]!) & this.mask;
      while (this.slots[slot] !== 0) slot = (slot + 1) & this.mask;
      this.slots[slot] = number + 1;
    }
  }
}

/** Spreads neighbouring numbers over all slots (multiplicative hashing; Knuth 1998, section 6.4). */
function hash(low: number, high: number): number {
  const mixed = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
  return mixed ^ (mixed >>> 15);
}

function doubled(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}

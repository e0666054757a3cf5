/** Nodes filed by degree, each degree a doubly linked list, so that one of least degree is found and moved quickly. */
export class DegreeLists {
  private readonly head: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly filed: Int32Array;
  private least = 0;

  constructor(size: number) {
    this.head = new Int32Array(size + 1).fill(-1);
    this.next = new Int32Array(size).fill(-1);
    this.previous = new Int32Array(size).fill(-1);
    this.filed = new Int32Array(size).fill(-1);
  }

  insert(node: number, degree: number): void {
    const first = this.head[degree]!;
    this.next[node] = first;
    this.previous[node] = -1;
    if (first >= 0) this.previous[first] = node;
    this.head[degree] = node;
    this.filed[node] = degree;
    if (degree < this.least) this.least = degree;
  }

  /** Takes a node out; nothing happens when it is in no list. */
  remove(node: number): void {
    const degree = this.filed[node]!;
    if (degree < 0) return;
    const before = this.previous[node]!;
    const after = this.next[node]!;
    if (before >= 0) this.next[before] = after;
    else this.head[degree] = after;
    if (after >= 0) this.previous[after] = before;
    this.filed[node] = -1;
  }

  /** Takes out a node of least degree; -1 when no node is left. */
  takeLeast(): number {
    while (this.least < this.head.length && this.head[this.least]! < 0) this.least++;
    if (this.least >= this.head.length) return -1;
    const node = this.head[this.least]!;
    this.remove(node);
    return node;
  }
}

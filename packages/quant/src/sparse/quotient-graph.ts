import { DegreeLists } from './degree-lists.ts';
import type { SparseSymmetric } from './symmetric.ts';

/**
 * The graph of a matrix during symbolic elimination. A node is a variable until it is eliminated; it is then an element,
 * which stands for the clique that its elimination made.
 */
export interface QuotientGraph {
  /** Lists of all variables; that of i is start[i] … listEnd[i] - 1, its elements first, then variables. */
  readonly adjacency: Int32Array;
  readonly start: Int32Array;
  readonly listEnd: Int32Array;
  readonly elementCount: Int32Array;
  /** Number of matrix rows that a variable stands for; 0 once joined to another, negative once eliminated. */
  readonly weight: Int32Array;
  /** Approximate external degree of a variable. */
  readonly degree: Int32Array;
  readonly joinedTo: Int32Array;
  /** Variables of a live element. */
  readonly element: (Int32Array | undefined)[];
  readonly elementWeight: Int32Array;
  /** Weight of an element outside the newest one, valid where overlapStamp equals stamp. */
  readonly outside: Int32Array;
  readonly overlapStamp: Int32Array;
  readonly seen: Int32Array;
  readonly compare: Int32Array;
  readonly scratch: Int32Array;
  readonly lists: DegreeLists;
  /** Rows with so many neighbours that they are ordered last without a search. */
  readonly setAside: readonly number[];
  stamp: number;
  compareStamp: number;
  /** Rows not yet eliminated, those set aside left out. */
  remaining: number;
}

/** The quotient graph of a matrix before the first elimination, all variables filed by degree. */
export function quotientGraph(matrix: SparseSymmetric): QuotientGraph {
  const { size, columnStart, rowIndex } = matrix;
  const neighbours = new Int32Array(size);
  for (let j = 0; j < size; j++) {
    for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
      const i = rowIndex[e]!;
      if (i === j) continue;
      neighbours[i] = neighbours[i]! + 1;
      neighbours[j] = neighbours[j]! + 1;
    }
  }
  const limit = crowdedAbove(neighbours);
  const setAside: number[] = [];
  for (let j = 0; j < size; j++) if (neighbours[j]! > limit) setAside.push(j);
  setAside.sort((a, b) => neighbours[a]! - neighbours[b]! || a - b);

  const start = new Int32Array(size);
  let room = 0;
  for (let j = 0; j < size; j++) {
    start[j] = room;
    room += neighbours[j]!;
  }
  const weight = new Int32Array(size).fill(1);
  for (const j of setAside) weight[j] = 0;
  const adjacency = new Int32Array(room);
  const listEnd = start.slice();
  for (let j = 0; j < size; j++) {
    if (weight[j] === 0) continue;
    for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
      const i = rowIndex[e]!;
      if (i === j || weight[i] === 0) continue;
      adjacency[listEnd[i]!] = j;
      listEnd[i] = listEnd[i]! + 1;
      adjacency[listEnd[j]!] = i;
      listEnd[j] = listEnd[j]! + 1;
    }
  }
  const degree = new Int32Array(size);
  const lists = new DegreeLists(size);
  for (let j = size - 1; j >= 0; j--) {
    if (weight[j] === 0) continue;
    degree[j] = listEnd[j]! - start[j]!;
    lists.insert(j, degree[j]!);
  }
  return {
    adjacency,
    start,
    listEnd,
    elementCount: new Int32Array(size),
    weight,
    degree,
    joinedTo: new Int32Array(size).fill(-1),
    element: new Array<Int32Array | undefined>(size).fill(undefined),
    elementWeight: new Int32Array(size),
    outside: new Int32Array(size),
    overlapStamp: new Int32Array(size),
    seen: new Int32Array(size),
    compare: new Int32Array(size),
    scratch: new Int32Array(size + 1),
    lists,
    setAside,
    stamp: 0,
    compareStamp: 0,
    remaining: size - setAside.length,
  };
}

/**
 * Rows with more neighbours than this are set aside: more than 10 √n (Amestoy, Davis & Duff 1996, section 5), or more
 * than a hundred times the usual number. Each would be searched again in every step that touches it, and minimum degree
 * would order it last all the same.
 */
function crowdedAbove(neighbours: Int32Array): number {
  const size = neighbours.length;
  const mean = neighbours.reduce((sum, count) => sum + count, 0) / Math.max(1, size);
  return Math.max(16, Math.min(10 * Math.sqrt(size), 100 * mean));
}

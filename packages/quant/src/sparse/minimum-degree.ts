import { type QuotientGraph, quotientGraph } from './quotient-graph.ts';
import type { SparseSymmetric } from './symmetric.ts';

/**
 * Order of elimination that keeps a Cholesky factor sparse: the approximate minimum degree ordering of P. R. Amestoy,
 * T. A. Davis and I. S. Duff 1996, SIAM Journal on Matrix Analysis and Applications 17:886-905, on a quotient graph
 * with element absorption, mass elimination and indistinguishable nodes joined.
 *
 * Nodes with far more neighbours than usual are set aside and ordered last.
 *
 * @returns `order[k]` is the row eliminated as the k-th; the same on every run
 */
export function minimumDegreeOrder(matrix: SparseSymmetric): Int32Array {
  const graph = quotientGraph(matrix);
  const pivots: number[] = [];
  for (let pivot = graph.lists.takeLeast(); pivot >= 0; pivot = graph.lists.takeLeast()) {
    pivots.push(pivot);
    eliminate(graph, pivot);
  }
  return expand(graph, pivots);
}

/** One step of elimination: the pivot becomes an element that ties its neighbours together. */
function eliminate(graph: QuotientGraph, pivot: number): void {
  const members = formElement(graph, pivot);
  measureOverlap(graph, members);
  let weight = 0;
  for (const i of members) weight += graph.weight[i]!;
  let surviving = 0;
  const buckets = new Map<number, number[]>();
  for (const i of members) {
    const hash = shrink(graph, i, pivot);
    if (hash < 0) {
      weight -= graph.weight[i]!;
      absorb(graph, i, pivot);
      continue;
    }
    const bucket = buckets.get(hash);
    if (bucket) bucket.push(i);
    else buckets.set(hash, [i]);
  }
  for (const bucket of buckets.values()) if (bucket.length > 1) joinIndistinguishable(graph, bucket);
  for (const i of members) {
    const own = graph.weight[i]!;
    if (own === 0) continue;
    members[surviving++] = i;
    const outside = graph.degree[i]! + weight - own;
    const degree = Math.max(0, Math.min(outside, graph.remaining - own));
    graph.degree[i] = degree;
    graph.lists.insert(i, degree);
  }
  if (surviving === 0) return;
  graph.element[pivot] = members.slice(0, surviving);
  graph.elementWeight[pivot] = weight;
}

/** L_p: the pivot's neighbours, directly and through its elements, which it absorbs. */
function formElement(graph: QuotientGraph, pivot: number): Int32Array {
  const { adjacency, start, elementCount, listEnd, weight, seen } = graph;
  graph.remaining -= weight[pivot]!;
  const mark = ++graph.stamp;
  seen[pivot] = mark;
  let count = 0;
  const found = graph.scratch;
  const take = (i: number): void => {
    if (weight[i]! > 0 && seen[i] !== mark) {
      seen[i] = mark;
      found[count++] = i;
      graph.lists.remove(i);
    }
  };
  const split = start[pivot]! + elementCount[pivot]!;
  for (let k = start[pivot]!; k < split; k++) {
    const e = adjacency[k]!;
    const list = graph.element[e];
    if (!list) continue;
    for (const i of list) take(i);
    graph.element[e] = undefined;
  }
  for (let k = split; k < listEnd[pivot]!; k++) take(adjacency[k]!);
  weight[pivot] = -weight[pivot]!;
  return found.slice(0, count);
}

/** For every element e next to L_p the weight of L_e outside L_p (Amestoy, Davis & Duff 1996, algorithm 2). */
function measureOverlap(graph: QuotientGraph, members: Int32Array): void {
  const { adjacency, start, elementCount, weight, overlapStamp, outside } = graph;
  for (const i of members) {
    const split = start[i]! + elementCount[i]!;
    for (let k = start[i]!; k < split; k++) {
      const e = adjacency[k]!;
      if (!graph.element[e]) continue;
      if (overlapStamp[e] !== graph.stamp) {
        overlapStamp[e] = graph.stamp;
        outside[e] = graph.elementWeight[e]!;
      }
      outside[e] = outside[e]! - weight[i]!;
    }
  }
}

/**
 * Rewrites the list of i, a member of L_p: the pivot's element comes first, elements that lie within L_p and variables
 * reached through it go. Leaves in `degree` the weight that is reached outside L_p.
 *
 * @returns a hash of the list, or -1 when nothing is reached outside L_p, so that i can be eliminated with the pivot
 */
function shrink(graph: QuotientGraph, i: number, pivot: number): number {
  const { adjacency, start, elementCount, listEnd, weight, seen, outside } = graph;
  const first = start[i]!;
  const split = first + elementCount[i]!;
  const end = listEnd[i]!;
  let degree = 0;
  let hash = 0;
  const kept = graph.scratch;
  let count = 1;
  kept[0] = pivot;
  for (let k = first; k < split; k++) {
    const e = adjacency[k]!;
    if (!graph.element[e]) continue;
    if (outside[e]! > 0) {
      kept[count++] = e;
      degree += outside[e]!;
      hash += e;
    } else {
      graph.element[e] = undefined;
    }
  }
  const elements = count;
  for (let k = split; k < end; k++) {
    const j = adjacency[k]!;
    if (weight[j]! <= 0 || seen[j] === graph.stamp) continue;
    kept[count++] = j;
    degree += weight[j]!;
    hash += j;
  }
  if (count === 1) return -1;
  for (let k = 0; k < count; k++) adjacency[first + k] = kept[k]!;
  elementCount[i] = elements;
  listEnd[i] = first + count;
  graph.degree[i] = Math.min(graph.degree[i]!, degree);
  return hash;
}

/** Joins those nodes of a bucket that have the same neighbours: they can be eliminated one after another. */
function joinIndistinguishable(graph: QuotientGraph, bucket: readonly number[]): void {
  const { adjacency, start, elementCount, listEnd, weight, compare } = graph;
  for (let a = 0; a < bucket.length; a++) {
    const i = bucket[a]!;
    if (weight[i] === 0) continue;
    const length = listEnd[i]! - start[i]!;
    const mark = ++graph.compareStamp;
    for (let k = start[i]!; k < listEnd[i]!; k++) compare[adjacency[k]!] = mark;
    for (let b = a + 1; b < bucket.length; b++) {
      const j = bucket[b]!;
      if (weight[j] === 0 || listEnd[j]! - start[j]! !== length || elementCount[j] !== elementCount[i])
        continue;
      let same = true;
      for (let k = start[j]!; same && k < listEnd[j]!; k++) same = compare[adjacency[k]!] === mark;
      if (!same) continue;
      weight[i] = weight[i]! + weight[j]!;
      weight[j] = 0;
      graph.joinedTo[j] = i;
    }
  }
}

function absorb(graph: QuotientGraph, i: number, pivot: number): void {
  graph.remaining -= graph.weight[i]!;
  graph.weight[i] = 0;
  graph.joinedTo[i] = pivot;
}

/** The full order: each pivot, then the nodes that were joined to it, then the nodes set aside. */
function expand(graph: QuotientGraph, pivots: readonly number[]): Int32Array {
  const size = graph.joinedTo.length;
  const firstJoined = new Int32Array(size).fill(-1);
  const nextJoined = new Int32Array(size).fill(-1);
  for (let i = size - 1; i >= 0; i--) {
    const to = graph.joinedTo[i]!;
    if (to < 0) continue;
    nextJoined[i] = firstJoined[to]!;
    firstJoined[to] = i;
  }
  const order = new Int32Array(size);
  let filled = 0;
  const stack: number[] = [];
  for (const pivot of pivots) {
    stack.push(pivot);
    while (stack.length > 0) {
      const node = stack.pop()!;
      order[filled++] = node;
      for (let j = firstJoined[node]!; j >= 0; j = nextJoined[j]!) stack.push(j);
    }
  }
  for (const node of graph.setAside) order[filled++] = node;
  return order;
}

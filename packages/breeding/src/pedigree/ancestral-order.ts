import type { Parentage } from './parentage.ts';

/**
 * Parentage with its nodes numbered anew as equations: founder groups, then all that are parents by generation, so that
 * every parent stands before its progeny, then all others in the order given.
 */
export interface OrderedParentage extends Parentage {
  /** Groups and genets that are parents of some genet: equations 0 … parents - 1. */
  readonly parents: number;
  /** Equations of generation l are `generationStart[l] … generationStart[l + 1] - 1`; none of it is a parent of another of it. */
  readonly generationStart: Int32Array;
}

/** Puts parents before progeny in any order of rows; null if a loop makes that impossible. */
export function orderByAncestry(parentage: Parentage): OrderedParentage | null {
  const { nodes, groups, start, parent } = parentage;
  // Progeny counts among parents only: whoever has no progeny can wait to the end.
  const isParent = new Uint8Array(nodes);
  for (let g = 0; g < groups; g++) isParent[g] = 1;
  for (let e = 0; e < parent.length; e++) isParent[parent[e]!] = 1;
  const progenyStart = new Int32Array(nodes + 1);
  let parents = 0;
  for (let i = 0; i < nodes; i++) {
    if (isParent[i] === 0) continue;
    parents++;
    for (let e = start[i]!; e < start[i + 1]!; e++) {
      const p = parent[e]! + 1;
      progenyStart[p] = progenyStart[p]! + 1;
    }
  }
  for (let i = 0; i < nodes; i++) progenyStart[i + 1] = progenyStart[i + 1]! + progenyStart[i]!;
  const progeny = new Int32Array(progenyStart[nodes]!);
  const filled = progenyStart.slice();
  const waitingFor = new Int32Array(nodes);
  const old = new Int32Array(nodes);
  let found = 0;
  for (let g = 0; g < groups; g++) old[found++] = g;
  for (let i = groups; i < nodes; i++) {
    if (isParent[i] === 0) continue;
    waitingFor[i] = start[i + 1]! - start[i]!;
    if (waitingFor[i] === 0) old[found++] = i;
    for (let e = start[i]!; e < start[i + 1]!; e++) {
      const p = parent[e]!;
      const at = filled[p]!;
      progeny[at] = i;
      filled[p] = at + 1;
    }
  }
  const generations = [0, groups];
  for (let at = 0, end = found; at < end; at = end, end = found) {
    for (let k = at; k < end; k++) {
      const node = old[k]!;
      for (let e = progenyStart[node]!; e < progenyStart[node + 1]!; e++) {
        const child = progeny[e]!;
        waitingFor[child] = waitingFor[child]! - 1;
        if (waitingFor[child] === 0) old[found++] = child;
      }
    }
    generations.push(end);
  }
  if (found < parents) return null;
  for (let i = 0; i < nodes; i++) if (isParent[i] === 0) old[found++] = i;
  return { ...renumber(parentage, old), parents, generationStart: Int32Array.from(generations) };
}

/** The same parentage with node old[k] as k; parents of each ascend anew. */
function renumber(from: Parentage, old: Int32Array): Parentage {
  const { nodes, groups } = from;
  const now = new Int32Array(nodes);
  for (let k = 0; k < nodes; k++) now[old[k]!] = k;
  const start = new Int32Array(nodes + 1);
  const parent = new Int32Array(from.parent.length);
  const seed = new Float64Array(parent.length);
  const pollen = new Float64Array(parent.length);
  const self = new Float64Array(nodes);
  let to = 0;
  for (let k = 0; k < nodes; k++) {
    const node = old[k]!;
    const first = to;
    self[k] = from.self[node]!;
    for (let e = from.start[node]!; e < from.start[node + 1]!; e++) {
      const number = now[from.parent[e]!]!;
      let at = to++;
      for (; at > first && parent[at - 1]! > number; at--) {
        parent[at] = parent[at - 1]!;
        seed[at] = seed[at - 1]!;
        pollen[at] = pollen[at - 1]!;
      }
      parent[at] = number;
      seed[at] = from.seed[e]!;
      pollen[at] = from.pollen[e]!;
    }
    start[k + 1] = to;
  }
  return { nodes, groups, nodeOf: from.nodeOf.map((node) => now[node]!), start, parent, seed, pollen, self };
}

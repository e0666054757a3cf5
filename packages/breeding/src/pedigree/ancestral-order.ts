import type { Parentage } from './parentage.ts';

/**
 * Parentage with its nodes numbered anew as equations: founder groups, then all that are parents by generation, so that
 * every parent stands before its progeny, then all others in the order given.
 */
export interface OrderedParentage extends Parentage {
  /** Node of each equation; the parents of equation i are those listed for nodeAt[i], by their equations. */
  readonly nodeAt: Int32Array;
  /** Founder groups and genets that are parents of some genet: equations 0 … parents - 1. */
  readonly parents: number;
  /** Equations of generation l are `generationStart[l] … generationStart[l + 1] - 1`; none is a parent of another of them. */
  readonly generationStart: Int32Array;
  /** The parents of parents once more, close together: those of equation i from `start[i]`, `weight` ½ of both chances. */
  readonly ancestors: {
    readonly start: Int32Array;
    readonly parent: Int32Array;
    readonly weight: Float64Array;
  };
}

/** Puts parents before progeny, whatever the order of rows (Kahn 1962); null if a loop makes that impossible. */
export function orderByAncestry(parentage: Parentage): OrderedParentage | null {
  const { nodes, groups, nodeOf, start, parent } = parentage;
  const isParent = new Uint8Array(nodes).fill(1, 0, groups);
  for (let e = 0; e < parent.length; e++) isParent[parent[e]!] = 1;
  const nodeAt = new Int32Array(nodes);
  const equationOf = new Int32Array(nodes).fill(-1);
  const progeny = progenyAmongParents(parentage, isParent);
  let found = 0;
  const add = (node: number) => {
    nodeAt[found] = node;
    equationOf[node] = found++;
  };
  for (let i = 0; i < nodes; i++) if (i < groups || (isParent[i] === 1 && start[i] === start[i + 1])) add(i);
  const generationStart = [0, groups];
  for (let at = 0, end = found; at < end; at = end, end = found) {
    for (let k = at; k < end; k++) {
      const node = nodeAt[k]!;
      for (let e = progeny.start[node]!; e < progeny.start[node + 1]!; e++) {
        const child = progeny.list[e]!;
        progeny.waitingFor[child] = progeny.waitingFor[child]! - 1;
        if (progeny.waitingFor[child] === 0) add(child);
      }
    }
    generationStart.push(end);
  }
  const parents = found;
  if (parents < progeny.parents) return null;
  for (let i = 0; i < nodes; i++) if (isParent[i] === 0) add(i);
  for (let k = 0; k < nodeOf.length; k++) nodeOf[k] = equationOf[nodeOf[k]!]!;
  renumberParents(parentage, equationOf);
  return {
    ...parentage,
    nodeAt,
    parents,
    generationStart: Int32Array.from(generationStart),
    ancestors: ancestorsOf(parentage, nodeAt, parents),
  };
}

/** Progeny of each node, as far as they are parents themselves, and for each of these how many parents come before it. */
function progenyAmongParents({ nodes, start, parent }: Parentage, isParent: Uint8Array) {
  const progenyStart = new Int32Array(nodes + 1);
  const waitingFor = new Int32Array(nodes);
  let parents = 0;
  for (let i = 0; i < nodes; i++) {
    if (isParent[i] === 0) continue;
    parents++;
    waitingFor[i] = start[i + 1]! - start[i]!;
    for (let e = start[i]!; e < start[i + 1]!; e++) {
      const next = parent[e]! + 1;
      progenyStart[next] = progenyStart[next]! + 1;
    }
  }
  for (let i = 0; i < nodes; i++) progenyStart[i + 1] = progenyStart[i + 1]! + progenyStart[i]!;
  const list = new Int32Array(progenyStart[nodes]!);
  const next = progenyStart.slice();
  for (let i = 0; i < nodes; i++) {
    if (isParent[i] === 0) continue;
    for (let e = start[i]!; e < start[i + 1]!; e++) {
      const p = parent[e]!;
      const at = next[p]!;
      list[at] = i;
      next[p] = at + 1;
    }
  }
  return { parents, waitingFor, list, start: progenyStart };
}

/** Names parents by their equations, in place; those of each node ascend anew. */
function renumberParents(parentage: Parentage, equationOf: Int32Array): void {
  const { nodes, start, parent, seed, pollen } = parentage;
  for (let i = 0; i < nodes; i++) {
    for (let e = start[i]!; e < start[i + 1]!; e++) {
      const equation = equationOf[parent[e]!]!;
      const p = seed[e]!;
      const q = pollen[e]!;
      let at = e;
      for (; at > start[i]! && parent[at - 1]! > equation; at--) {
        parent[at] = parent[at - 1]!;
        seed[at] = seed[at - 1]!;
        pollen[at] = pollen[at - 1]!;
      }
      parent[at] = equation;
      seed[at] = p;
      pollen[at] = q;
    }
  }
}

function ancestorsOf({ start, parent, seed, pollen }: Parentage, nodeAt: Int32Array, parents: number) {
  const compactStart = new Int32Array(parents + 1);
  for (let i = 0; i < parents; i++) {
    const node = nodeAt[i]!;
    compactStart[i + 1] = compactStart[i]! + start[node + 1]! - start[node]!;
  }
  const compact = new Int32Array(compactStart[parents]!);
  const weight = new Float64Array(compact.length);
  for (let i = 0; i < parents; i++) {
    let to = compactStart[i]!;
    for (let e = start[nodeAt[i]!]!; e < start[nodeAt[i]! + 1]!; e++) {
      compact[to] = parent[e]!;
      weight[to++] = 0.5 * (seed[e]! + pollen[e]!);
    }
  }
  return { start: compactStart, parent: compact, weight };
}

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
  const { nodes, groups, nodeOf, start } = parentage;
  const lines = linesAmongParents(parentage);
  const { parentNodes, progeny, progenyStart, waitingFor } = lines;
  const parents = parentNodes.length;
  const nodeAt = new Int32Array(nodes);
  // Places among the parents in the order found; their equations. The founder groups come first in both.
  const found = new Int32Array(parents);
  let count = 0;
  for (let k = 0; k < parents; k++)
    if (k < groups || start[parentNodes[k]!] === start[parentNodes[k]! + 1]) found[count++] = k;
  const generationStart = [0, groups];
  for (let at = 0, end = count; at < end; at = end, end = count) {
    for (let k = at; k < end; k++) {
      const place = found[k]!;
      for (let e = progenyStart[place]!; e < progenyStart[place + 1]!; e++) {
        const child = progeny[e]!;
        waitingFor[child] = waitingFor[child]! - 1;
        if (waitingFor[child] === 0) found[count++] = child;
      }
    }
    generationStart.push(end);
  }
  if (count < parents) return null;
  const equationOf = lines.placeOf;
  for (let k = 0; k < parents; k++) {
    const node = parentNodes[found[k]!]!;
    nodeAt[k] = node;
    equationOf[node] = k;
  }
  for (let i = 0; i < nodes; i++) {
    if (equationOf[i] !== NO_PARENT) continue;
    nodeAt[count] = i;
    equationOf[i] = count++;
  }
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

const NO_PARENT = -1;

/**
 * The nodes that are parents (and the founder groups), by places of their own since they are few: the progeny of each as
 * far as these are parents themselves, and for each how many parents come before it.
 */
function linesAmongParents({ nodes, groups, start, parent }: Parentage) {
  const placeOf = new Int32Array(nodes).fill(NO_PARENT);
  placeOf.fill(0, 0, groups);
  for (let e = 0; e < parent.length; e++) placeOf[parent[e]!] = 0;
  let parents = 0;
  for (let i = 0; i < nodes; i++) if (placeOf[i] === 0) placeOf[i] = parents++;
  const parentNodes = new Int32Array(parents);
  for (let i = 0; i < nodes; i++) if (placeOf[i] !== NO_PARENT) parentNodes[placeOf[i]!] = i;

  const progenyStart = new Int32Array(parents + 1);
  const waitingFor = new Int32Array(parents);
  for (let k = 0; k < parents; k++) {
    const node = parentNodes[k]!;
    waitingFor[k] = start[node + 1]! - start[node]!;
    for (let e = start[node]!; e < start[node + 1]!; e++) {
      const next = placeOf[parent[e]!]! + 1;
      progenyStart[next] = progenyStart[next]! + 1;
    }
  }
  for (let k = 0; k < parents; k++) progenyStart[k + 1] = progenyStart[k + 1]! + progenyStart[k]!;
  const progeny = new Int32Array(progenyStart[parents]!);
  const next = progenyStart.slice();
  for (let k = 0; k < parents; k++) {
    const node = parentNodes[k]!;
    for (let e = start[node]!; e < start[node + 1]!; e++) {
      const place = placeOf[parent[e]!]!;
      const at = next[place]!;
      progeny[at] = k;
      next[place] = at + 1;
    }
  }
  return { placeOf, parentNodes, progeny, progenyStart, waitingFor };
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

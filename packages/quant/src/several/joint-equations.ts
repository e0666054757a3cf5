import { analyse, type SymbolicFactor } from '../sparse/symbolic.ts';
import type { SparseSymmetric } from '../sparse/symmetric.ts';
import type { Component } from './covariances.ts';
import { jointPattern } from './joint-pattern.ts';
import { addRowPairs, type PatternPart, ridgePart } from './joint-values.ts';
import type { Layout } from './layout.ts';
import type { SmallInverse } from './small-matrix.ts';

/**
 * The equations of several traits as a sum of fixed matrices, one for each pair of traits in each group of each component, times
 * the element of the inverse covariance matrix that belongs to the pair; docs/methods/several-traits.md, line (4).
 */
export interface JointEquations {
  readonly pattern: SparseSymmetric;
  readonly symbolic: SymbolicFactor;
  /** By component, group and pair (a, b) with a ≤ b, b changing fastest. */
  readonly parts: readonly (readonly (readonly PatternPart[])[])[];
  /** 1 for entries of the pattern on the diagonal, 2 for others: how often they count in a trace. */
  readonly times: Uint8Array;
}

/** The pairs a ≤ b of n traits, b changing fastest. */
export function pairsOf(n: number): [a: number, b: number][] {
  const pairs: [number, number][] = [];
  for (let a = 0; a < n; a++) for (let b = a; b < n; b++) pairs.push([a, b]);
  return pairs;
}

export function assembleJointly(layout: Layout, components: readonly Component[]): JointEquations {
  const pattern = jointPattern(layout, []);
  const symbolic = analyse(pattern);
  const residual = components
    .at(-1)!
    .groups.map(({ traits }) => pairsOf(traits.length).map(() => new Float64Array(pattern.rowIndex.length)));
  const places = residual.map((_, g) => {
    const n = components.at(-1)!.groups[g]!.traits.length;
    const place = new Int32Array(n * n);
    pairsOf(n).forEach(([a, b], k) => {
      place[a * n + b] = k;
      place[b * n + a] = k;
    });
    return place;
  });
  addRowPairs(layout, pattern, (g, a, b) => {
    const n = components.at(-1)!.groups[g]!.traits.length;
    return { into: residual[g]![places[g]![a * n + b]!]!, factor: 1 };
  });
  const terms = layout.terms.map((term) => [
    pairsOf(term.traits.length).map(([a, b]) => ridgePart(term, pattern, a, b)),
  ]);
  const times = new Uint8Array(pattern.rowIndex.length).fill(2);
  for (let j = 0; j < pattern.size; j++) times[pattern.columnStart[j + 1]! - 1] = 1;
  return { pattern, symbolic, parts: [...terms, residual.map((group) => group.map(compressed))], times };
}

/** The entries that are not zero. */
function compressed(values: Float64Array): PatternPart {
  let count = 0;
  for (const value of values) if (value !== 0) count++;
  const at = new Int32Array(count);
  const value = new Float64Array(count);
  let filled = 0;
  values.forEach((x, e) => {
    if (x === 0) return;
    at[filled] = e;
    value[filled++] = x;
  });
  return { at, value };
}

/** The values of the equations. */
export function jointValues(
  { parts }: JointEquations,
  inverses: readonly (readonly SmallInverse[])[],
  into: Float64Array,
): Float64Array {
  into.fill(0);
  parts.forEach((groups, c) => {
    groups.forEach((pairs, g) => {
      const { inverse } = inverses[c]![g]!;
      const n = Math.round(Math.sqrt(inverse.length));
      pairsOf(n).forEach(([a, b], k) => {
        const factor = inverse[a * n + b]!;
        const { at, value } = pairs[k]!;
        for (let e = 0; e < at.length; e++) into[at[e]!] = into[at[e]!]! + factor * value[e]!;
      });
    });
  });
  return into;
}

/** tr(C⁻¹ B) for each pair of traits of a group, row by row: its matrices against the selected inverse. */
export function groupTraces(
  { parts, symbolic, times }: JointEquations,
  component: number,
  group: number,
  inverse: Float64Array,
): Float64Array {
  const pairs = parts[component]![group]!;
  const n = Math.round((Math.sqrt(8 * pairs.length + 1) - 1) / 2);
  const traces = new Float64Array(n * n);
  pairsOf(n).forEach(([a, b], k) => {
    const { at, value } = pairs[k]!;
    let trace = 0;
    for (let e = 0; e < at.length; e++) {
      trace += times[at[e]!]! * value[e]! * inverse[symbolic.entryTarget[at[e]!]!]!;
    }
    // The matrix of two traits holds both of their blocks.
    traces[a * n + b] = a === b ? trace : trace / 2;
    traces[b * n + a] = traces[a * n + b]!;
  });
  return traces;
}

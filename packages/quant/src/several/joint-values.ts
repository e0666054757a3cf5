import { byColumn } from '../mixed/sparse-rows.ts';
import { entryAt } from '../sparse/pattern-builder.ts';
import type { SparseSymmetric } from '../sparse/symmetric.ts';
import type { Layout } from './layout.ts';
import type { SharedTerm } from './shared-terms.ts';

/** Where the products of rows go, and times what. */
export interface Destination {
  readonly into: Float64Array;
  readonly factor: number;
}

/**
 * Adds Σ factor × √(wᵣ wₛ) Wᵣ'Wₛ over the ordered pairs of rows r, s that share an occasion, a row with itself among them.
 *
 * @param destination for a pattern of traits and the places of both rows in it; symmetric in the two
 */
export function addRowPairs(
  layout: Layout,
  pattern: SparseSymmetric,
  destination: (pattern: number, a: number, b: number) => Destination,
): void {
  const { w, occasions, rootWeights } = layout;
  const columns = byColumn(w);
  const tables = occasions.patterns.map(({ length }, p) =>
    Array.from({ length: length * length }, (_, e) => destination(p, Math.floor(e / length), e % length)),
  );
  const entryOf = new Int32Array(w.width);
  for (let j = 0; j < w.width; j++) {
    for (let e = pattern.columnStart[j]!; e < pattern.columnStart[j + 1]!; e++) {
      entryOf[pattern.rowIndex[e]!] = e;
    }
    for (let f = columns.start[j]!; f < columns.start[j + 1]!; f++) {
      const row = columns.row[f]!;
      const x = rootWeights[row]! * columns.value[f]!;
      const block = occasions.blockOfRow[row]!;
      const first = occasions.start[block]!;
      const last = occasions.start[block + 1]!;
      const table = tables[occasions.pattern[block]!]!;
      let own = first;
      while (occasions.member[own] !== row) own++;
      for (let m = first; m < last; m++) {
        const { into, factor } = table[(own - first) * (last - first) + m - first]!;
        const other = occasions.member[m]!;
        const scaled = factor * x * rootWeights[other]!;
        for (let e = w.start[other]!; e < w.start[other + 1]!; e++) {
          const i = w.column[e]!;
          if (i > j) continue;
          const entry = entryOf[i]!;
          into[entry] = into[entry]! + scaled * w.value[e]!;
        }
      }
    }
  }
}

/** Entries of a symmetric matrix on a pattern: entry `at[i]` has `value[i]`. */
export interface PatternPart {
  readonly at: Int32Array;
  readonly value: Float64Array;
}

/** K⁻¹ in the places of the traits numbered a and b of a term, on both sides of the diagonal where they differ. */
export function ridgePart(term: SharedTerm, pattern: SparseSymmetric, a: number, b: number): PatternPart {
  const { inverse, offset, traits } = term;
  const k = traits.length;
  const at: number[] = [];
  const value: number[] = [];
  const add = (i: number, j: number, x: number): void => {
    at.push(entryAt(pattern, Math.min(i, j), Math.max(i, j)));
    value.push(x);
  };
  for (let j = 0; j < inverse.size; j++) {
    for (let e = inverse.columnStart[j]!; e < inverse.columnStart[j + 1]!; e++) {
      const i = inverse.rowIndex[e]!;
      add(offset + i * k + a, offset + j * k + b, inverse.values[e]!);
      if (i !== j && a !== b) add(offset + i * k + b, offset + j * k + a, inverse.values[e]!);
    }
  }
  return { at: Int32Array.from(at), value: Float64Array.from(value) };
}

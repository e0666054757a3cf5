import { byColumn } from '../mixed/sparse-rows.ts';
import { PatternBuilder } from '../sparse/pattern-builder.ts';
import type { SparseSymmetric } from '../sparse/symmetric.ts';
import type { Layout } from './layout.ts';

/**
 * The pattern of W'R⁻¹W + G⁻¹ over several traits: unknowns that meet in rows of one occasion, and those of levels that
 * meet in K⁻¹, of every two traits.
 *
 * @param linked terms whose effects of all traits shall be in the pattern with one another wherever their levels meet in
 *   a row, so that errors of their sums can be read from the selected inverse
 */
export function jointPattern(layout: Layout, linked: readonly string[]): SparseSymmetric {
  const { w, occasions, terms } = layout;
  const columns = byColumn(w);
  const builder = new PatternBuilder(w.width);
  const termOf = termOfUnknown(layout);
  const isLinked = terms.map((term) => linked.includes(term.name));

  /** All unknowns that rows with the unknown c tie to the current column. */
  const touchRows = (c: number): void => {
    for (let f = columns.start[c]!; f < columns.start[c + 1]!; f++) {
      const block = occasions.blockOfRow[columns.row[f]!]!;
      for (let m = occasions.start[block]!; m < occasions.start[block + 1]!; m++) {
        const row = occasions.member[m]!;
        for (let e = w.start[row]!; e < w.start[row + 1]!; e++) builder.touch(w.column[e]!);
      }
    }
  };
  const touchLinked = (c: number): void => {
    for (let f = columns.start[c]!; f < columns.start[c + 1]!; f++) {
      const row = columns.row[f]!;
      for (let e = w.start[row]!; e < w.start[row + 1]!; e++) {
        const t = termOf[w.column[e]!]!;
        if (t < 0 || !isLinked[t]) continue;
        const { offset, traits } = terms[t]!;
        const first = offset + Math.floor((w.column[e]! - offset) / traits.length) * traits.length;
        for (let a = 0; a < traits.length; a++) builder.touch(first + a);
      }
    }
  };

  for (let j = 0; j < w.width; j++) {
    touchRows(j);
    const t = termOf[j]!;
    if (t >= 0) {
      const { offset, traits, inverse } = terms[t]!;
      const k = traits.length;
      const level = Math.floor((j - offset) / k);
      for (let e = inverse.columnStart[level]!; e < inverse.columnStart[level + 1]!; e++) {
        for (let a = 0; a < k; a++) builder.touch(offset + inverse.rowIndex[e]! * k + a);
      }
      if (isLinked[t]) for (let a = 0; a < k; a++) touchLinked(offset + level * k + a);
    }
    builder.endColumn();
  }
  return builder.done();
}

/** The term that each unknown belongs to, -1 for fixed columns. */
function termOfUnknown(layout: Layout): Int32Array {
  const termOf = new Int32Array(layout.w.width).fill(-1);
  layout.terms.forEach(({ offset, size, traits }, t) => {
    termOf.fill(t, offset, offset + size * traits.length);
  });
  return termOf;
}

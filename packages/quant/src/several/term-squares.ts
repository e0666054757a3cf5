import type { SharedTerm } from './shared-terms.ts';

/** u_a' K⁻¹ u_b for every two traits of a term, row by row. */
export function termSquares(term: SharedTerm, solution: Float64Array): Float64Array {
  const { inverse, offset, traits } = term;
  const k = traits.length;
  const squares = new Float64Array(k * k);
  for (let j = 0; j < inverse.size; j++) {
    for (let e = inverse.columnStart[j]!; e < inverse.columnStart[j + 1]!; e++) {
      const i = inverse.rowIndex[e]!;
      const x = inverse.values[e]!;
      for (let a = 0; a < k; a++) {
        const ia = solution[offset + i * k + a]!;
        const ja = solution[offset + j * k + a]!;
        for (let b = 0; b < k; b++) {
          const ib = solution[offset + i * k + b]!;
          const jb = solution[offset + j * k + b]!;
          squares[a * k + b] = squares[a * k + b]! + (i === j ? x * ia * jb : x * (ia * jb + ja * ib));
        }
      }
    }
  }
  return squares;
}

import type { Block } from './block.ts';
import { addRowProducts } from './row-products.ts';

/** Columns that are factorised before the rest of the panel is updated. */
const STRIP = 48;

/**
 * Cholesky factor of a panel in place: the leading columns × columns block A₁₁ becomes L₁₁ with A₁₁ = L₁₁L₁₁', the rows
 * below become A₂₁L₁₁⁻ᵀ. Only the lower triangle of the leading block is read.
 *
 * Right-looking by strips of columns (G. H. Golub and C. F. Van Loan 2013, Matrix Computations, 4th ed., section 4.2.9).
 *
 * @returns the first column whose pivot is not clearly positive, -1 when all are
 */
export function factorisePanel(panel: Block, rows: number, columns: number): number {
  const { data, offset, stride } = panel;
  for (let from = 0; from < columns; from += STRIP) {
    const to = Math.min(columns, from + STRIP);
    const bad = factoriseStrip(panel, rows, from, to);
    if (bad >= 0) return bad;
    if (to === columns) break;
    const left = { data, offset: offset + to * stride + from, stride };
    const rest = { data, offset: offset + to * stride + to, stride };
    addRowProducts(rest, left, left, rows - to, columns - to, to - from, -1, true);
  }
  return -1;
}

/** Factorises the columns from … to - 1, which no longer depend on columns before them. */
function factoriseStrip(panel: Block, rows: number, from: number, to: number): number {
  const { data, offset, stride } = panel;
  for (let i = from; i < rows; i++) {
    const row = offset + i * stride;
    const end = Math.min(i, to);
    for (let j = from; j < end; j++) {
      const other = offset + j * stride;
      let sum = data[row + j]!;
      for (let k = from; k < j; k++) sum -= data[row + k]! * data[other + k]!;
      data[row + j] = sum / data[other + j]!;
    }
    if (i >= to) continue;
    const before = data[row + i]!;
    let pivot = before;
    for (let k = from; k < i; k++) pivot -= data[row + k]! * data[row + k]!;
    if (!(pivot > 0)) return i;
    data[row + i] = Math.sqrt(pivot);
  }
  return -1;
}

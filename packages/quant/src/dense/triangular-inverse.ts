import type { Block } from './block.ts';
import { addRowProducts } from './row-products.ts';

/** Columns of L that are inverted before the next are reached. */
const STRIP = 48;
/** Rows and columns of products, large enough for packing to pay. */
const GROUP = 192;

/**
 * U = L⁻ᵀ, upper triangular, for a lower triangular L (size × size); both row by row. Entries of U below the diagonal
 * are set to zero.
 *
 * Row j of U is column j of L⁻¹: L⁻¹ᵢⱼ = -(Σ_{j≤k<i} Lᵢₖ L⁻¹ₖⱼ) / Lᵢᵢ, so both factors of the sum lie along rows.
 */
export function inverseTransposed(lower: Block, size: number, upper: Block): void {
  const { data: l } = lower;
  const { data: u } = upper;
  for (let j = 0; j < size; j++)
    u.fill(0, upper.offset + j * upper.stride, upper.offset + j * upper.stride + size);
  for (let from = 0; from < size; from += STRIP) {
    const to = Math.min(size, from + STRIP);
    for (let block = 0; block < from; block += GROUP) {
      // Rows block … of U against rows from … of L over the columns that both have by now; U is zero below its diagonal.
      addRowProducts(
        { data: u, offset: upper.offset + block * upper.stride + from, stride: upper.stride },
        { data: u, offset: upper.offset + block * upper.stride + block, stride: upper.stride },
        { data: l, offset: lower.offset + from * lower.stride + block, stride: lower.stride },
        Math.min(GROUP, from - block),
        to - from,
        from - block,
        -1,
      );
    }
    for (let j = 0; j < to; j++) {
      const row = upper.offset + j * upper.stride;
      const start = Math.max(from, j);
      for (let i = start; i < to; i++) {
        const lRow = lower.offset + i * lower.stride;
        let sum = i === j ? 1 : u[row + i]!;
        for (let k = start; k < i; k++) sum -= l[lRow + k]! * u[row + k]!;
        u[row + i] = sum / l[lRow + i]!;
      }
    }
  }
}

/** Adds the lower triangle of U U' (and at most the tiles on its diagonal above) to `target`, U upper triangular. */
export function addUpperSquare(upper: Block, size: number, target: Block): void {
  for (let from = 0; from < size; from += GROUP) {
    const rows = Math.min(GROUP, size - from);
    const top = { data: upper.data, offset: upper.offset + from * upper.stride + from, stride: upper.stride };
    for (let block = 0; block <= from; block += GROUP) {
      addRowProducts(
        { data: target.data, offset: target.offset + from * target.stride + block, stride: target.stride },
        top,
        { data: upper.data, offset: upper.offset + block * upper.stride + from, stride: upper.stride },
        rows,
        Math.min(GROUP, size - block),
        size - from,
        1,
        block === from,
      );
    }
  }
}

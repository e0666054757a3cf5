import type { Block } from './block.ts';

/**
 * The same as the vector program in plain JavaScript: sixteen sums are kept at a time (4 × 4), so that eight loads serve
 * sixteen multiply-adds.
 *
 * @param rows a multiple of four, as are the columns
 * @param lowerOnly leave out tiles wholly above the diagonal of c
 */
export function addPlainTiles(
  c: Block,
  a: Block,
  b: Block,
  rows: number,
  columns: number,
  length: number,
  scale: number,
  lowerOnly: boolean,
): void {
  const x = a.data;
  const y = b.data;
  const z = c.data;
  for (let i = 0; i < rows; i += 4) {
    const a0 = a.offset + i * a.stride;
    const a1 = a0 + a.stride;
    const a2 = a1 + a.stride;
    const a3 = a2 + a.stride;
    const lastColumn = lowerOnly ? Math.min(columns, i + 4) : columns;
    for (let j = 0; j < lastColumn; j += 4) {
      const b0 = b.offset + j * b.stride;
      const b1 = b0 + b.stride;
      const b2 = b1 + b.stride;
      const b3 = b2 + b.stride;
      let s00 = 0;
      let s01 = 0;
      let s02 = 0;
      let s03 = 0;
      let s10 = 0;
      let s11 = 0;
      let s12 = 0;
      let s13 = 0;
      let s20 = 0;
      let s21 = 0;
      let s22 = 0;
      let s23 = 0;
      let s30 = 0;
      let s31 = 0;
      let s32 = 0;
      let s33 = 0;
      for (let q = 0; q < length; q++) {
        const x0 = x[a0 + q]!;
        const x1 = x[a1 + q]!;
        const x2 = x[a2 + q]!;
        const x3 = x[a3 + q]!;
        const y0 = y[b0 + q]!;
        s00 += x0 * y0;
        s10 += x1 * y0;
        s20 += x2 * y0;
        s30 += x3 * y0;
        const y1 = y[b1 + q]!;
        s01 += x0 * y1;
        s11 += x1 * y1;
        s21 += x2 * y1;
        s31 += x3 * y1;
        const y2 = y[b2 + q]!;
        s02 += x0 * y2;
        s12 += x1 * y2;
        s22 += x2 * y2;
        s32 += x3 * y2;
        const y3 = y[b3 + q]!;
        s03 += x0 * y3;
        s13 += x1 * y3;
        s23 += x2 * y3;
        s33 += x3 * y3;
      }
      let o = c.offset + i * c.stride + j;
      z[o] = z[o]! + scale * s00;
      z[o + 1] = z[o + 1]! + scale * s01;
      z[o + 2] = z[o + 2]! + scale * s02;
      z[o + 3] = z[o + 3]! + scale * s03;
      o += c.stride;
      z[o] = z[o]! + scale * s10;
      z[o + 1] = z[o + 1]! + scale * s11;
      z[o + 2] = z[o + 2]! + scale * s12;
      z[o + 3] = z[o + 3]! + scale * s13;
      o += c.stride;
      z[o] = z[o]! + scale * s20;
      z[o + 1] = z[o + 1]! + scale * s21;
      z[o + 2] = z[o + 2]! + scale * s22;
      z[o + 3] = z[o + 3]! + scale * s23;
      o += c.stride;
      z[o] = z[o]! + scale * s30;
      z[o + 1] = z[o + 1]! + scale * s31;
      z[o + 2] = z[o + 2]! + scale * s32;
      z[o + 3] = z[o + 3]! + scale * s33;
    }
  }
}

import type { Block } from './block.ts';
import { addPlainTiles } from './plain-tiles.ts';
import { type AddTiles, prepareTiles, STRETCH } from './tiles.ts';

/** Multiply-adds from which packing for the vector program pays. */
const WORTH_PACKING = 1 << 13;

/** The vector program of this thread; null where the host has none. */
let vectorTiles: AddTiles | null | undefined;

/**
 * C ← C + scale · A B', for blocks stored row by row: C (m × n), A (m × k), B (n × k).
 *
 * All heavy dense work comes down to this. It is done by tiles of 4 × 4 sums; large blocks by a program with vectors of two
 * numbers, small ones, and all where the host has no such programs, in plain JavaScript with the same numbers bit for bit.
 *
 * @param lowerOnly leave out 4 × 4 tiles wholly above the diagonal of C
 */
export function addRowProducts(
  c: Block,
  a: Block,
  b: Block,
  m: number,
  n: number,
  k: number,
  scale: 1 | -1,
  lowerOnly = false,
): void {
  for (let from = 0; from < k; from += STRETCH) {
    const length = Math.min(STRETCH, k - from);
    const along = (block: Block) => ({ ...block, offset: block.offset + from });
    addStretch(c, along(a), along(b), m, n, length, scale, lowerOnly);
  }
}

function addStretch(
  c: Block,
  a: Block,
  b: Block,
  m: number,
  n: number,
  length: number,
  scale: number,
  lowerOnly: boolean,
): void {
  const fullRows = m & ~3;
  const fullColumns = n & ~3;
  tilesFor(fullRows * fullColumns * length)(c, a, b, fullRows, fullColumns, length, scale, lowerOnly);
  for (let i = 0; i < fullRows; i += 4) {
    const restEnd = lowerOnly ? Math.min(n, i + 4) : n;
    for (let j = fullColumns; j < restEnd; j++) addColumnOfFour(c, a, b, i, j, length, scale);
  }
  for (let i = fullRows; i < m; i++) {
    const restEnd = lowerOnly ? Math.min(n, i + 1) : n;
    for (let j = 0; j < restEnd; j++) addOne(c, a, b, i, j, length, scale);
  }
}

function tilesFor(multiplyAdds: number): AddTiles {
  if (multiplyAdds < WORTH_PACKING) return addPlainTiles;
  if (vectorTiles === undefined) vectorTiles = prepareTiles();
  return vectorTiles ?? addPlainTiles;
}

function addColumnOfFour(
  c: Block,
  a: Block,
  b: Block,
  i: number,
  j: number,
  length: number,
  scale: number,
): void {
  const x = a.data;
  const y = b.data;
  const a0 = a.offset + i * a.stride;
  const a1 = a0 + a.stride;
  const a2 = a1 + a.stride;
  const a3 = a2 + a.stride;
  const bj = b.offset + j * b.stride;
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  for (let q = 0; q < length; q++) {
    const v = y[bj + q]!;
    s0 += x[a0 + q]! * v;
    s1 += x[a1 + q]! * v;
    s2 += x[a2 + q]! * v;
    s3 += x[a3 + q]! * v;
  }
  const z = c.data;
  const o = c.offset + i * c.stride + j;
  z[o] = z[o]! + scale * s0;
  z[o + c.stride] = z[o + c.stride]! + scale * s1;
  z[o + 2 * c.stride] = z[o + 2 * c.stride]! + scale * s2;
  z[o + 3 * c.stride] = z[o + 3 * c.stride]! + scale * s3;
}

function addOne(c: Block, a: Block, b: Block, i: number, j: number, length: number, scale: number): void {
  const x = a.data;
  const y = b.data;
  const ai = a.offset + i * a.stride;
  const bj = b.offset + j * b.stride;
  let sum = 0;
  for (let q = 0; q < length; q++) sum += x[ai + q]! * y[bj + q]!;
  const o = c.offset + i * c.stride + j;
  c.data[o] = c.data[o]! + scale * sum;
}

import type { Block } from './block.ts';
import { tileProgram } from './tile-program.ts';

/** Rows and columns worked on at once, and the longest stretch of them, so that what is packed stays near. */
const BLOCK = 256;
export const STRETCH = 256;

/** Sums of products of rows of a and rows of b, added times `scale` to c; rows and columns are multiples of four, the length is at most STRETCH. */
export type AddTiles = (
  c: Block,
  a: Block,
  b: Block,
  rows: number,
  columns: number,
  length: number,
  scale: number,
  lowerOnly: boolean,
) => void;

/** What of WebAssembly is used; the types of the language's own library have none of it. */
interface WasmHost {
  readonly Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array<ArrayBuffer>) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: { readonly run: TileRun } };
}
type TileRun = (
  rows: number,
  columns: number,
  length: number,
  a: number,
  b: number,
  c: number,
  lower: number,
) => void;

const PAGE = 65536;

/**
 * Prepares the vector program, once for each thread.
 *
 * @returns null where the host has no WebAssembly with vectors or forbids it; plain JavaScript then gives the same numbers
 */
export function prepareTiles(): AddTiles | null {
  const host = (globalThis as unknown as { WebAssembly?: WasmHost }).WebAssembly;
  if (!host) return null;
  const aPlace = 0;
  const bPlace = BLOCK * STRETCH;
  const cPlace = 2 * BLOCK * STRETCH;
  const pages = Math.ceil((8 * (cPlace + BLOCK * BLOCK)) / PAGE);
  try {
    const memory = new host.Memory({ initial: pages });
    const { run } = new host.Instance(new host.Module(tileProgram(pages)), { on: { memory } }).exports;
    const room = new Float64Array(memory.buffer);
    return (c, a, b, rows, columns, length, scale, lowerOnly) => {
      for (let j = 0; j < columns; j += BLOCK) {
        const wide = Math.min(BLOCK, columns - j);
        pack(room, bPlace, b, j, wide, length);
        for (let i = lowerOnly ? j : 0; i < rows; i += BLOCK) {
          const high = Math.min(BLOCK, rows - i);
          const onDiagonal = lowerOnly && i === j;
          pack(room, aPlace, a, i, high, length);
          run(high / 4, wide / 4, length, 8 * aPlace, 8 * bPlace, 8 * cPlace, onDiagonal ? 1 : 0);
          addSums(room, cPlace, c, i, j, high, wide, scale, onDiagonal);
        }
      }
    };
  } catch {
    return null;
  }
}

/** Groups of four rows: for each element along the rows the four of them side by side. */
function pack(
  room: Float64Array,
  place: number,
  { data, offset, stride }: Block,
  from: number,
  rows: number,
  length: number,
): void {
  let at = place;
  for (let i = from; i < from + rows; i += 4) {
    const r0 = offset + i * stride;
    const r1 = r0 + stride;
    const r2 = r1 + stride;
    const r3 = r2 + stride;
    for (let q = 0; q < length; q++, at += 4) {
      room[at] = data[r0 + q]!;
      room[at + 1] = data[r1 + q]!;
      room[at + 2] = data[r2 + q]!;
      room[at + 3] = data[r3 + q]!;
    }
  }
}

/** Adds the sums, tile after tile, to their places in c. */
function addSums(
  room: Float64Array,
  place: number,
  { data, offset, stride }: Block,
  i: number,
  j: number,
  rows: number,
  columns: number,
  scale: number,
  onDiagonal: boolean,
): void {
  let at = place;
  for (let r = 0; r < rows; r += 4) {
    const last = onDiagonal ? Math.min(columns, r + 4) : columns;
    for (let q = 0; q < last; q += 4) {
      for (let k = 0; k < 4; k++, at += 4) {
        const o = offset + (i + r + k) * stride + j + q;
        data[o] = data[o]! + scale * room[at]!;
        data[o + 1] = data[o + 1]! + scale * room[at + 1]!;
        data[o + 2] = data[o + 2]! + scale * room[at + 2]!;
        data[o + 3] = data[o + 3]! + scale * room[at + 3]!;
      }
    }
  }
}
